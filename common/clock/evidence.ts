import type { Exchange } from './exchange.ts';

/** No quartz runs faster or slower than this against another: 300 ppm, as a plain ratio. */
export const STEEPEST = 300e-6;
/** A clock's rate in the next minutes may differ by this from its rate in the last ones (it warms up). */
export const WANDER = 5e-6;

/**
 * What one exchange proves about θ = shared − local, whatever the network did: θ was at most `upper` at local
 * time `t0` and at least `lower` at local time `t3`. Together with older exchanges it also proves how fast θ
 * can have moved: since θ is below `upper` and was above an older `lower`, it can't have climbed faster than
 * the line through the two. Slopes are plain ratios (ms per ms).
 */
export interface Evidence {
  readonly t0: number;
  readonly upper: number;
  readonly maxSlope: number;
  readonly t3: number;
  readonly lower: number;
  readonly minSlope: number;
}

/** A bound on θ: at local time `at` it is `value`, and from there on it moves with `slope`. */
export interface BoundLine {
  readonly at: number;
  readonly value: number;
  readonly slope: number;
}

/**
 * The evidence of an exchange, given the older evidence that still stands. Takes O(older).
 * @param grainMs the tablet's clock is rounded down to whole multiples of this, 0 = it isn't: then t3 was read
 *   up to a grain too early, and t2 − t3 is up to a grain too high to be a lower bound
 */
export const evidenceOf = (exchange: Exchange, grainMs: number, older: readonly Evidence[]): Evidence =>
  withSlopes(
    {
      t0: exchange.t0,
      upper: exchange.t1 - exchange.t0,
      t3: exchange.t3,
      lower: exchange.t2 - exchange.t3 - grainMs,
    },
    older,
  );

/** The same evidence with every lower bound `byMs` lower: the clock turned out to be so much coarser. */
export const loosened = (evidence: readonly Evidence[], byMs: number): Evidence[] => {
  const loose: Evidence[] = [];
  for (const one of evidence) loose.push(withSlopes({ ...one, lower: one.lower - byMs }, loose));
  return loose;
};

/** The highest θ that this evidence allows at another local time. */
export const highestAt = (evidence: Evidence, localMs: number): number => {
  const sinceMs = localMs - evidence.t0;
  return evidence.upper + (sinceMs >= 0 ? climb(evidence) : -STEEPEST) * sinceMs;
};

/** The lowest θ that this evidence allows at another local time. */
export const lowestAt = (evidence: Evidence, localMs: number): number => {
  const sinceMs = localMs - evidence.t3;
  return evidence.lower + (sinceMs >= 0 ? fall(evidence) : STEEPEST) * sinceMs;
};

/** Of all upper bounds the lowest at local time `at`, which must not be before the newest evidence. */
export const lowestUpper = (evidence: readonly Evidence[], at: number): BoundLine => {
  let best: BoundLine = { at, value: Number.POSITIVE_INFINITY, slope: STEEPEST };
  for (const one of evidence) {
    const value = highestAt(one, at);
    if (value < best.value) best = { at, value, slope: climb(one) };
  }
  return best;
};

/** Of all lower bounds the highest at local time `at`, which must not be before the newest evidence. */
export const highestLower = (evidence: readonly Evidence[], at: number): BoundLine => {
  let best: BoundLine = { at, value: Number.NEGATIVE_INFINITY, slope: -STEEPEST };
  for (const one of evidence) {
    const value = lowestAt(one, at);
    if (value > best.value) best = { at, value, slope: fall(one) };
  }
  return best;
};

const withSlopes = (
  bounds: Pick<Evidence, 't0' | 'upper' | 't3' | 'lower'>,
  older: readonly Evidence[],
): Evidence => {
  const { t0, upper, t3, lower } = bounds;
  let maxSlope = STEEPEST;
  let minSlope = -STEEPEST;
  for (const old of older) {
    if (t0 > old.t3) maxSlope = Math.min(maxSlope, (upper - old.lower) / (t0 - old.t3));
    if (t3 > old.t0) minSlope = Math.max(minSlope, (lower - old.upper) / (t3 - old.t0));
  }
  return { t0, upper, maxSlope, t3, lower, minSlope };
};

const climb = (evidence: Evidence): number => Math.min(STEEPEST, evidence.maxSlope + WANDER);
const fall = (evidence: Evidence): number => Math.max(-STEEPEST, evidence.minSlope - WANDER);
