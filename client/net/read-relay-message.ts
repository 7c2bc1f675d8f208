import type { Done, Pong, Refused } from '../../common/protocol/messages.ts';

/** What a tablet takes from the relay: of a called cue only what it does not know, since it called the cue itself. */
export type HeardMessage =
  | Pong
  | Refused
  | Done
  | { readonly t: 'called'; readonly id: string; readonly calledAtMs: number };

const isText = (value: unknown): value is string => typeof value === 'string';
const isNumber = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value);

/**
 * The message the relay sent; null where it is none that a tablet needs. Never throws.
 *
 * By hand, not by `relayMessageSchema`: every stand would load the schemas of all cues and roads, and the
 * library that reads them, before its first bar. A test holds the two together.
 */
export const readRelayMessage = (json: unknown): HeardMessage | null => {
  if (typeof json !== 'object' || json === null) return null;
  const { t, n, t0, t1, t2, epoch, id, calledAtMs, why, words } = json as Record<string, unknown>;
  if (t === 'pong') {
    return isNumber(n) && isNumber(t0) && isNumber(t1) && isNumber(t2) && isText(epoch)
      ? { t, n, t0, t1, t2, epoch }
      : null;
  }
  if (t === 'called') return isText(id) && isNumber(calledAtMs) ? { t, id, calledAtMs } : null;
  if (t === 'done') return isText(id) ? { t, id } : null;
  if (t === 'refused') return isText(id) && isText(why) && isText(words) ? { t, id, why, words } : null;
  return null;
};
