/**
 * How fast counts go by from one moment on: constant, or a ramp that is linear in time and then constant.
 * Counts are pulses played since the take began. Only + − × ÷ and square root are used, so that every
 * machine gets the same bits.
 */
export interface Tempo {
  readonly fromCount: number;
  readonly fromMs: number;
  /** Pulses a minute at `fromMs`. */
  readonly bpm: number;
  readonly ramp?: {
    readonly toBpm: number;
    /** Length of the ramp, in pulses and in ms. */
    readonly pulses: number;
    readonly ms: number;
    /** It only corrects the place, after a tap: the tempo is the one to which it leads. */
    readonly bend?: true;
  };
  /** The band holds: the count stays at `fromCount`, however long; `bpm` is the tempo at which it will go on. */
  readonly still?: true;
}

export const SLOWEST_BPM = 20;
export const FASTEST_BPM = 400;

/** True for a number of pulses a minute that a band may be asked for. */
export const isTempo = (bpm: unknown): bpm is number =>
  typeof bpm === 'number' && bpm >= SLOWEST_BPM && bpm <= FASTEST_BPM;

/**
 * A tempo that goes from `fromBpm` to `toBpm` while `pulses` go by: 120000·P/(b0 + b1) ms.
 * Example: from 120 to 60 over 8 pulses takes 5,333.3 ms.
 */
export const rampTempo = (
  fromCount: number,
  fromMs: number,
  fromBpm: number,
  toBpm: number,
  pulses: number,
): Tempo => ({
  fromCount,
  fromMs,
  bpm: fromBpm,
  ramp: { toBpm, pulses, ms: (120_000 * pulses) / (fromBpm + toBpm) },
});

/** The count reached at `tMs`; before the tempo begins, the count at which it begins. */
export const countAt = (tempo: Tempo, tMs: number): number => {
  const ms = tMs - tempo.fromMs;
  if (!(ms > 0) || tempo.still) return tempo.fromCount;
  const { ramp, bpm, fromCount } = tempo;
  if (!ramp) return fromCount + (ms * bpm) / 60_000;
  if (ms >= ramp.ms) return fromCount + ramp.pulses + ((ms - ramp.ms) * ramp.toBpm) / 60_000;
  return fromCount + (bpm * ms + ((ramp.toBpm - bpm) * ms * ms) / (2 * ramp.ms)) / 60_000;
};

/** When `count` is reached: the other way round than `countAt`. Infinity while the band holds. */
export const msAt = (tempo: Tempo, count: number): number => {
  const pulses = count - tempo.fromCount;
  const { ramp, bpm, fromMs } = tempo;
  if (!(pulses > 0)) return fromMs;
  if (tempo.still) return Number.POSITIVE_INFINITY;
  if (!ramp) return fromMs + (pulses * 60_000) / bpm;
  if (pulses >= ramp.pulses) return fromMs + ramp.ms + ((pulses - ramp.pulses) * 60_000) / ramp.toBpm;
  // The root of the quadratic in the form that loses no digits when the ramp is nearly flat.
  const area = pulses * 60_000;
  const slope = (ramp.toBpm - bpm) / ramp.ms;
  return fromMs + (2 * area) / (bpm + Math.sqrt(bpm * bpm + 2 * slope * area));
};

/** Pulses a minute at `tMs`; while a tap bends the tempo, those to which the bend leads. */
export const bpmAt = (tempo: Tempo, tMs: number): number => {
  const { ramp, bpm } = tempo;
  const ms = tMs - tempo.fromMs;
  if (!ramp || !(ms > 0 || ramp.bend)) return bpm;
  return ms >= ramp.ms || ramp.bend ? ramp.toBpm : bpm + ((ramp.toBpm - bpm) * ms) / ramp.ms;
};
