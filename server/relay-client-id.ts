import { createHash } from 'node:crypto';

/**
 * The Yjs client id under which the relay writes: one for a whole epoch, so that a stage that is overwritten melts
 * into a few bytes. Another epoch gets another: after a power cut the disk might lack the last thing sent, and an
 * id must never count the same numbers twice.
 */
export const relayClientId = (epoch: string): number =>
  createHash('sha256').update(`relay ${epoch}`).digest().readUInt32BE(0);
