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

const SENTENCES: Readonly<Record<CloseName, string>> = {
  badMessage:
    'The relay could not read what this tablet sent. Reload the page; it may be older than the relay.',
  badKey: 'This link is not valid here. Ask the leader for a new one.',
  notAllowed: 'This link lets you read, not write. Ask the leader for a player’s link.',
  notFound: 'There is nothing at this address. Ask the leader for a new link.',
  tooManyDocuments: 'This band has as many charts as it can hold. Delete some in the Book first.',
  keyRenewed: 'The leader has renewed this link. Ask for the new one.',
  tooLarge: 'That is too large for the relay. Make it smaller; what you typed stays on this tablet.',
  locked: 'The book is locked for the gig. What you typed stays on this tablet until it is unlocked.',
  tooManyMessages: 'This tablet sent too much at once and was disconnected. Reload the page to go on.',
  tooManyConnections: 'Too many tablets are connected from this address. Close some pages and reload.',
  badOrigin: 'This page comes from another address than the relay’s. Open the link the leader gave you.',
  brokenDocument: 'The relay cannot read this chart at the moment. It tries again.',
};

/** The reason sent with a close of this name; what `closeWords` gives back for its code. */
export const sentenceOf = (name: CloseName): string => SENTENCES[name];

const NAME_OF: ReadonlyMap<number, CloseName> = new Map(
  Object.entries(CLOSE_CODES).map(([name, code]) => [code, name as CloseName]),
);

/** A sentence for the person whose socket was closed with this code; null where trying again is all there is. */
export const closeWords = (code: number): string | null => {
  const name = NAME_OF.get(code);
  return name === undefined ? null : SENTENCES[name];
};

/** Whether trying again is no use: what y-websocket decides as well. */
export const isFinal = (code: number): boolean => code >= 4400 && code < 4500;
