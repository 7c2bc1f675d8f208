/**
 * Clicks are so far apart, ms. A sound may be three quarters of it late, as over wireless headphones, and a tap still
 * belongs to its own click.
 */
export const CLICK_EVERY_MS = 750;
/** The first taps only find the click; those after them are counted. */
const FINDING = 2;
export const TAPS_WANTED = 12;
/** Taps that lie farther than this from their middle, half of them, say nothing of the sound. */
const EVEN_MS = 35;

/** What taps along a click tell. Each in ms. */
export type Lateness =
  | { readonly kind: 'more'; readonly left: number }
  /** Half of the taps lie within `spreadMs` of `laterMs`. */
  | { readonly kind: 'late' | 'uneven'; readonly laterMs: number; readonly spreadMs: number };

const median = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  const upper = sorted[half] ?? 0;
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] ?? upper) + upper) / 2;
};

/**
 * How much later than it was meant a click is heard, by the taps of somebody who taps along it: the median of the taps
 * against their clicks, so that a few bad ones count for nothing. Most people tap some 10 to 50 ms before a click that
 * they hear (from memory), so the true figure is rather higher than this.
 * @param firstClickMs when a click was meant to be heard, @param tapsMs both on the same clock
 * @example lateness([140, 890, 1640, 2390, …], 0) // { kind: 'late', laterMs: 140, spreadMs: 0 }
 */
export const lateness = (tapsMs: readonly number[], firstClickMs: number): Lateness => {
  if (tapsMs.length < TAPS_WANTED) return { kind: 'more', left: TAPS_WANTED - tapsMs.length };
  const quarter = CLICK_EVERY_MS / 4;
  const late = tapsMs.slice(FINDING).map((tap) => {
    const since = tap - firstClickMs + quarter;
    return since - Math.floor(since / CLICK_EVERY_MS) * CLICK_EVERY_MS - quarter;
  });
  const laterMs = median(late);
  const spreadMs = median(late.map((one) => Math.abs(one - laterMs)));
  return { kind: spreadMs <= EVEN_MS ? 'late' : 'uneven', laterMs, spreadMs };
};
