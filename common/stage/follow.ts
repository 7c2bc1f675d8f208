import {
  type Beat,
  countOn,
  type Estimate,
  guess,
  loosen,
  msOn,
  surprise,
  type Tap,
  weigh,
} from './beat-estimate.ts';
import type { Tempo } from './tempo.ts';

/** What the taps have told so far. Never changed in place. */
export interface Pursuit {
  readonly estimate: Estimate;
  /** The last tap that was no bounce. */
  readonly lastMs: number;
  /** It was too far off to be believed by itself. */
  readonly doubted: Tap | null;
  /** Errors that lean to the late and to the early side. */
  readonly late: Lean | null;
  readonly early: Lean | null;
}

/** What the taps have told, and the tempo that they made: where the course goes at another one, it begins anew. */
export interface Following {
  readonly tempo: Tempo;
  readonly pursuit: Pursuit;
}

interface Lean {
  /** Of the errors, in standard deviations. */
  readonly sum: number;
  /** The estimate before they began to lean, and the taps since. */
  readonly from: Estimate;
  readonly taps: readonly Tap[];
}

/** What came of a tap: it was followed, it waits for another that agrees with it, or it was no tap at all. */
export interface Heard {
  readonly pursuit: Pursuit;
  readonly did: 'followed' | 'doubted' | 'bounced';
  /** Late (−early) by so much against the pulse at `count`. */
  readonly errorMs: number;
  readonly count: number;
}

/** A second tap sooner than this is a bounce; a tap farther off is not believed by itself. In pulses. */
const BOUNCE = 0.5;
const FARTHEST = 0.35;
/** Two such taps agree if the tempo between them is no farther off than this, in pulses for each pulse between. */
const AGREE = 0.15;
/** How far off a beat may be before the first tap: phase in pulses, period in parts of itself. */
const FRESH = { phase: 0.1, period: 0.05 } as const;
/** Another tempo: the period has changed by about so much of itself. */
const CHANGE = 0.06;
/** Errors above this lean to a side; the tempo has changed when their sum is above that. In standard deviations. */
const LEAN_FROM = 0.7;
const LEAN_MOST = 4;
const LEAN_TAPS = 12;

/** Follows on from an estimate; the last tap was at `lastMs`. */
export const pursue = (estimate: Estimate, lastMs: number): Pursuit => ({
  estimate,
  lastMs,
  doubted: null,
  late: null,
  early: null,
});

/** Begins to follow, from the beat at which the band goes already. */
export const beginPursuit = (beat: Beat): Pursuit =>
  pursue(guess(beat, FRESH.phase, FRESH.period), Number.NEGATIVE_INFINITY);

const lean = (before: Lean | null, error: number, estimate: Estimate, tap: Tap): Lean | null => {
  const { sum, from, taps } = before ?? { sum: 0, from: estimate, taps: [] };
  const next = sum + error - LEAN_FROM;
  if (!(next > 0)) return null;
  return taps.length < LEAN_TAPS
    ? { sum: next, from, taps: [...taps, tap] }
    : { sum: next, from: weigh(from, taps.slice(0, 1)), taps: [...taps.slice(1), tap] };
};

/**
 * Errors that go on leaning to one side show that the tempo has changed (the cumulative sum of Page 1954,
 * "Continuous inspection schemes", Biometrika 41; from memory). Then the taps since they began to lean are weighed
 * once more, as taps of a tempo that is not known.
 */
const believe = ({ estimate, late, early }: Pursuit, tap: Tap): Pursuit => {
  const error = surprise(estimate, tap);
  const leans = { late: lean(late, error, estimate, tap), early: lean(early, -error, estimate, tap) };
  const changed = [leans.late, leans.early].find((side) => side && side.sum > LEAN_MOST);
  return changed
    ? pursue(weigh(loosen(changed.from, 0, CHANGE), changed.taps), tap.ms)
    : { ...pursue(weigh(estimate, [tap]), tap.ms), ...leans };
};

/** The pulse for which a tap is taken that agrees with the doubted one before it; null where it does not. */
const agreeing = ({ doubted, estimate }: Pursuit, tapMs: number, nearest: Nearest): Tap | null => {
  if (!doubted) return null;
  const between = (tapMs - doubted.ms) / estimate.beat.pulseMs;
  const count = nearest(doubted.count + between);
  const pulses = count - doubted.count;
  return pulses > 0 && Math.abs(between - pulses) <= AGREE * pulses ? { ms: tapMs, count } : null;
};

/** The count nearest to another at which a tap may be meant: a pulse, or a downbeat. */
type Nearest = (count: number) => number;

/** Hears a tap. */
export const hearTap = (pursuit: Pursuit, tapMs: number, nearest: Nearest): Heard => {
  const { estimate, lastMs, doubted } = pursuit;
  const { beat } = estimate;
  const at = countOn(beat, tapMs);
  const count = nearest(at);
  const tap = { ms: tapMs, count };
  const off = { errorMs: tapMs - msOn(beat, count), count };
  if (tapMs - lastMs < BOUNCE * beat.pulseMs) return { pursuit, did: 'bounced', ...off };
  if (Math.abs(at - count) <= FARTHEST) return { pursuit: believe(pursuit, tap), did: 'followed', ...off };
  const agreed = agreeing(pursuit, tapMs, nearest);
  if (!doubted || !agreed) {
    return { pursuit: { ...pursuit, lastMs: tapMs, doubted: tap }, did: 'doubted', ...off };
  }
  // Both are right: the band is elsewhere by then, or goes at another tempo.
  const anew = weigh(loosen(estimate, FARTHEST, CHANGE), [doubted, agreed]);
  const errorMs = tapMs - msOn(beat, agreed.count);
  return { pursuit: pursue(anew, tapMs), did: 'followed', errorMs, count: agreed.count };
};
