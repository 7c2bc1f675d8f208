/** Times of the latest taps, oldest first, in ms of any one clock. */
export type Taps = readonly number[];

/** A longer pause starts a new count: slower than 30 bpm nobody taps. */
const PAUSE_MS = 2_000;
/** Two touches closer than this are one finger bouncing (500 bpm). */
const BOUNCE_MS = 120;
const KEPT = 9;

/** The taps with one more; a bounce changes nothing, after a pause the count begins anew. */
export const addTap = (taps: Taps, atMs: number): Taps => {
  const last = taps.at(-1);
  if (last === undefined || atMs - last > PAUSE_MS) return [atMs];
  if (atMs - last < BOUNCE_MS) return taps;
  return [...taps, atMs].slice(-KEPT);
};

/**
 * The tempo tapped, in whole bpm from 20 to 400, by a least-squares line through the taps; null before the
 * fourth tap. A line through all of them is steadier than the mean of the intervals, which only knows the
 * first and the last tap.
 */
export const tappedBpm = (taps: Taps): number | null => {
  const n = taps.length;
  if (n < 4) return null;
  const middle = (n - 1) / 2;
  const mean = taps.reduce((sum, tap) => sum + tap, 0) / n;
  let up = 0;
  let down = 0;
  taps.forEach((tap, k) => {
    up += (k - middle) * (tap - mean);
    down += (k - middle) ** 2;
  });
  return Math.min(400, Math.max(20, Math.round((60_000 * down) / up)));
};
