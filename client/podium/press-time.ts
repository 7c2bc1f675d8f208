/** Older than this a press was held up by something else, and when it was is no longer to be believed. */
const OLDEST_MS = 1_000;

/**
 * Shared time of a press: when the finger came down, not when the page got to hear of it.
 * @param stampMs the event's own `timeStamp`, on the clock of `performance.now()`
 * @param localNowMs that clock now, @param sharedNowMs shared time now
 */
export const pressTime = (stampMs: number, localNowMs: number, sharedNowMs: number): number => {
  const ageMs = localNowMs - stampMs;
  return ageMs >= 0 && ageMs <= OLDEST_MS ? sharedNowMs - ageMs : sharedNowMs;
};
