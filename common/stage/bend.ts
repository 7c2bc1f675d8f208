import { type Beat, countOn, msOn } from './beat-estimate.ts';
import { bpmAt, countAt, FASTEST_BPM, SLOWEST_BPM, type Tempo } from './tempo.ts';

/** A bend lasts so long, unless the speed would go beyond its bounds. */
const PULSES = 2;

/** Pulses a minute. Dividing there and back may leave the bounds by a last bit. */
const bpmOf = ({ pulseMs }: Beat): number => Math.min(FASTEST_BPM, Math.max(SLOWEST_BPM, 60_000 / pulseMs));

/** The beat to which a tempo leads: beyond its bend, else as it goes at `tMs`. */
export const beatOf = (tempo: Tempo, tMs: number): Beat => {
  const { ramp, fromCount, fromMs } = tempo;
  if (ramp?.bend) {
    return { count: fromCount + ramp.pulses, ms: fromMs + ramp.ms, pulseMs: 60_000 / ramp.toBpm };
  }
  const ms = Math.max(tMs, fromMs);
  return { count: countAt(tempo, ms), ms, pulseMs: 60_000 / bpmAt(tempo, ms) };
};

/**
 * Leads from `count` at `fromMs` to the beat: the speed changes at once and then evenly back, so that after two
 * pulses place and speed are the beat's, three quarters of the way after the first. The speed stays within half and
 * double of the beat's, and within 20–400; where that is not enough the bend lasts longer.
 */
const bendTo = (beat: Beat, count: number, fromMs: number): Tempo => {
  const toBpm = bpmOf(beat);
  const behind = countOn(beat, fromMs) - count;
  const ms = (PULSES - behind) * beat.pulseMs;
  const wanted = ms > 0 ? (120_000 * PULSES) / ms - toBpm : Number.POSITIVE_INFINITY;
  const slowest = Math.max(SLOWEST_BPM, toBpm / 2);
  const fastest = Math.min(FASTEST_BPM, toBpm * 2);
  const tempo = { fromCount: count, fromMs };
  if (wanted >= slowest && wanted <= fastest) {
    return { ...tempo, bpm: wanted, ramp: { toBpm, pulses: PULSES, ms, bend: true } };
  }
  const bpm = wanted < slowest ? slowest : fastest;
  const longerMs = (120_000 * behind) / (bpm - toBpm);
  if (!Number.isFinite(longerMs)) return { ...tempo, bpm };
  const pulses = ((bpm + toBpm) * longerMs) / 120_000;
  return { ...tempo, bpm, ramp: { toBpm, pulses, ms: longerMs, bend: true } };
};

/** The tempo that leads from `tempo` to the beat from `atMs` on. */
export const leadTo = (beat: Beat, tempo: Tempo, atMs: number): Tempo => {
  const startMs = msOn(beat, tempo.fromCount);
  // Nothing moves yet before the first count of a count-in: it is moved itself.
  return atMs < tempo.fromMs && atMs <= startMs
    ? { fromCount: tempo.fromCount, fromMs: startMs, bpm: bpmOf(beat) }
    : bendTo(beat, countAt(tempo, atMs), atMs);
};
