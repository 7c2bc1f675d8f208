import { FASTEST_BPM, SLOWEST_BPM } from './tempo.ts';

/** The pulses as the taps have them: pulse `count` comes at `ms`, and one more every `pulseMs`. */
export interface Beat {
  readonly count: number;
  readonly ms: number;
  readonly pulseMs: number;
}

/** A tap, and the count of the pulse that it is taken for. */
export interface Tap {
  readonly ms: number;
  readonly count: number;
}

/**
 * A beat and how unsure it is: the variances, in ms², of its phase at `beat.count` and of its period, and what
 * the two have in common.
 */
export interface Estimate {
  readonly beat: Beat;
  readonly phase: number;
  readonly common: number;
  readonly period: number;
}

/** Standard deviation of the hand that taps, ms: about 4 % of half a second (Repp 2005, from memory). */
const HAND_MS = 20;
/** A period wanders from pulse to pulse by so much of itself. */
const WANDER = 0.002;

export const square = (x: number): number => x * x;
const HAND = square(HAND_MS);

/** A period that a band can have: 20 to 400 pulses a minute. */
const sound = (pulseMs: number): number =>
  Math.min(60_000 / SLOWEST_BPM, Math.max(60_000 / FASTEST_BPM, pulseMs));

export const msOn = ({ count, ms, pulseMs }: Beat, at: number): number => ms + (at - count) * pulseMs;
export const countOn = ({ count, ms, pulseMs }: Beat, tMs: number): number => count + (tMs - ms) / pulseMs;

/** A beat nobody has tapped yet: its phase may be off by `phase` pulses, its period by `period` of itself. */
export const guess = (beat: Beat, phase: number, period: number): Estimate => ({
  beat,
  phase: square(phase * beat.pulseMs),
  common: 0,
  period: square(period * beat.pulseMs),
});

/** The same beat, but its phase and its period may have changed by so much. */
export const loosen = (estimate: Estimate, phase: number, period: number): Estimate => ({
  ...estimate,
  phase: estimate.phase + square(phase * estimate.beat.pulseMs),
  period: estimate.period + square(period * estimate.beat.pulseMs),
});

/** The estimate at another pulse: less sure, because of what is not known of the period and because it wanders. */
const carry = ({ beat, phase, common, period }: Estimate, count: number): Estimate => {
  const n = Math.abs(count - beat.count);
  const wander = square(WANDER * beat.pulseMs);
  return {
    beat: { ...beat, count, ms: msOn(beat, count) },
    phase: phase + 2 * n * common + n * n * period + (wander * n * n * n) / 3,
    common: common + n * period + (wander * n * n) / 2,
    period: period + wander * n,
  };
};

/**
 * Corrects phase and period, each by its share of the tap's error, alpha and beta: the model of error correction
 * of Mates 1994 ("A model of synchronization of motor acts to a stimulus sequence", Biological Cybernetics 70) and
 * Repp 2005 ("Sensorimotor synchronization: a review of the tapping literature", Psychonomic Bulletin & Review 12).
 * The shares follow from how unsure the beat is (Kalman 1960): large at first and after a gap, about 0.2 and 0.03
 * once a tempo at which every pulse is tapped is known. From memory.
 */
const correct = (tap: Tap, estimate: Estimate): Estimate => {
  const { beat, phase, common, period } = carry(estimate, tap.count);
  const errorMs = tap.ms - beat.ms;
  const alpha = phase / (phase + HAND);
  const beta = common / (phase + HAND);
  return {
    beat: { ...beat, ms: beat.ms + alpha * errorMs, pulseMs: sound(beat.pulseMs + beta * errorMs) },
    phase: (1 - alpha) * phase,
    common: (1 - alpha) * common,
    period: period - beta * common,
  };
};

/** The estimate after these taps. */
export const weigh = (estimate: Estimate, taps: readonly Tap[]): Estimate =>
  taps.reduce((before, tap) => correct(tap, before), estimate);

/** By how many standard deviations a tap is later (−earlier) than expected. */
export const surprise = (estimate: Estimate, tap: Tap): number => {
  const { beat, phase } = carry(estimate, tap.count);
  return (tap.ms - beat.ms) / Math.sqrt(phase + HAND);
};

/** The straight line through the taps that is nearest to them all (least squares); two taps or more. */
export const fitBeat = (taps: readonly Tap[]): Estimate => {
  const n = taps.length;
  const meanCount = taps.reduce((sum, tap) => sum + tap.count, 0) / n;
  const meanMs = taps.reduce((sum, tap) => sum + tap.ms, 0) / n;
  const spread = taps.reduce((sum, tap) => sum + square(tap.count - meanCount), 0);
  const slope = taps.reduce((sum, tap) => sum + (tap.count - meanCount) * (tap.ms - meanMs), 0) / spread;
  const count = (taps[n - 1] as Tap).count;
  const off = count - meanCount;
  return {
    beat: { count, ms: meanMs + off * slope, pulseMs: slope },
    phase: HAND * (1 / n + square(off) / spread),
    common: (HAND * off) / spread,
    period: HAND / spread,
  };
};
