/**
 * Codes with which the relay closes a websocket (RFC 6455 §7.4.2 leaves 4000–4999 to applications). After
 * 4400–4499 trying again is no use, and y-websocket stops (event `closed`); after every other code it tries again.
 */
export const CLOSE_CODES = {
  /** The message could not be read. */
  badMessage: 4400,
  /** Unknown band, unknown or renewed key. */
  badKey: 4401,
  /** This key may not do that. */
  notAllowed: 4403,
  /** No such document or path. */
  notFound: 4404,
  /** The band has as many documents as it may. */
  tooManyDocuments: 4409,
  /** The key was in force when the connection began and has been renewed since. */
  keyRenewed: 4410,
  /** A message, a document or an awareness state beyond its limit. */
  tooLarge: 4413,
  /**
   * Something was written while the book is locked for the gig. Trying again is of use only after asking without
   * writing: the relay asks for what was typed (step 1) when it may be written again.
   */
  locked: 4423,
  /** More messages than one connection may send. */
  tooManyMessages: 4429,
  /** More connections from one address than the relay takes. */
  tooManyConnections: 4430,
  /** The page comes from an address that this relay does not serve. */
  badOrigin: 4431,
  /** The relay cannot read a document it has; others go on. */
  brokenDocument: 4500,
} as const;

export type CloseName = keyof typeof CLOSE_CODES;

/** Whether trying again is no use: what y-websocket decides as well. */
export const isFinal = (code: number): boolean => code >= 4400 && code < 4500;
