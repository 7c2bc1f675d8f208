/**
 * Number of the wire: raised whenever a message of `messages.ts` or a frame of `sync-frames.ts` changes its
 * shape. The hash of all shapes is pinned beside it in a test, so that no change slips by.
 */
export const PROTOCOL_VERSION = 2;
