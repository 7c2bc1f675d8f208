const KIB = 1024;
const MIB = 1024 * KIB;

/** What the relay takes from one connection, document, band or address. Beyond: a close code or a refusal. */
export const LIMITS = {
  /** Bytes of one websocket message. */
  messageBytes: MIB,
  /** Messages a second a connection may send in the long run, and at once after a silence. */
  messagesPerSecond: 50,
  messageBurst: 200,
  /** Bytes of the encoded state of one document. */
  documentBytes: 4 * MIB,
  documentsPerBand: 500,
  /** A whole band, or a school of them, sits behind one address. */
  connectionsPerAddress: 400,
  /** Bytes waiting to be sent to one connection before it is cut. */
  pendingBytes: MIB,
  /** Bytes of one person's awareness state as JSON. */
  awarenessBytes: 2 * KIB,
  /** Wrong evening codes an address may try at once, and how long until it may try one more. */
  codeTries: 10,
  codeTryEveryMs: 60_000,
  /** Bands an address may make at once, and how long until it may make one more. */
  bandsAtOnce: 60,
  bandEveryMs: 10_000,
  /** Characters of a band's name. */
  bandNameLength: 80,
  /** Bytes of the body of an HTTP request. */
  bodyBytes: 16 * KIB,
} as const;
