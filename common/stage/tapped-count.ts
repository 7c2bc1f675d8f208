import { type Estimate, fitBeat, msOn, square } from './beat-estimate.ts';
import { type CountLength, countedPulses } from './count-pattern.ts';
import { isTempo } from './tempo.ts';

/** A tap while the tune waits. A count may begin with it where it `opens`: with the first one, or after a pause. */
export interface CountTap {
  readonly ms: number;
  readonly opens: boolean;
}

/** Nobody counts so fast: a tap sooner than this after another is a bounce. */
const BOUNCE_MS = 120;
/** A pause is so long, and so much longer than the gaps before it; after a longer one the earlier taps are stale. */
const PAUSE_MS = 2000;
const PAUSE_RATIO = 1.75;
const STALE_MS = 8000;
const MOST_TAPS = 16;

/** The taps with one more; as they are where it is a bounce. */
export const collectTap = (taps: readonly CountTap[], ms: number): readonly CountTap[] => {
  const last = taps.at(-1);
  const gap = last ? ms - last.ms : STALE_MS;
  if (gap < BOUNCE_MS) return taps;
  if (gap >= STALE_MS) return [{ ms, opens: true }];
  let longest = 0;
  for (let i = 1; i < taps.length; i += 1) {
    longest = Math.max(longest, (taps[i] as CountTap).ms - (taps[i - 1] as CountTap).ms);
  }
  const opens = gap >= PAUSE_MS && gap >= PAUSE_RATIO * longest;
  return [...taps, { ms, opens }].slice(-MOST_TAPS);
};

/** A count is believed if its taps lie about so far from an even beat (standard deviation): ms, and parts of a pulse. */
const OFF_MS = 20;
const OFF = 0.06;
/** So much farther off it is still another way to understand the taps. */
const RIVAL = 1.6;
const FEWEST_TAPS = 3;
/** A count of two is over with its second tap: it is believed where it goes nearly at the tempo asked for. */
const NEARLY = 0.2;

/** A way to understand the taps, and how far from even they are then: 1 is as far as is believed. */
interface Reading {
  readonly estimate: Estimate;
  readonly off: number;
}

/** The taps as a count that begins with bar `fromBar`; after the count every pulse is tapped. */
const readFrom = (taps: readonly CountTap[], length: CountLength, fromBar: number): Reading => {
  const counted = countedPulses(length, fromBar);
  const meant = taps.map(({ ms }, i) => ({ ms, count: counted[i] ?? length.pulses + i - counted.length }));
  const estimate = fitBeat(meant);
  const { beat } = estimate;
  const squares = meant.reduce((sum, { ms, count }) => sum + square(ms - msOn(beat, count)), 0);
  // Two taps are always even.
  const offMs = meant.length > 2 ? Math.sqrt(squares / (meant.length - 2)) : 0;
  return { estimate, off: offMs / (OFF_MS + OFF * beat.pulseMs) };
};

const readAll = (taps: readonly CountTap[], length: CountLength): Reading[] => {
  const bars = Math.ceil(length.pulses / length.barPulses);
  return Array.from({ length: bars }, (_, fromBar) => readFrom(taps, length, fromBar)).filter(
    ({ estimate, off }) => isTempo(60_000 / estimate.beat.pulseMs) && off <= RIVAL,
  );
};

const isEnough = (
  taps: readonly CountTap[],
  length: CountLength,
  askedBpm: number,
  read: Estimate,
): boolean => {
  if (taps.length >= FEWEST_TAPS) return true;
  const isWhole = countedPulses(length, 0).length === taps.length;
  const bpm = 60_000 / read.beat.pulseMs;
  return isWhole && Math.abs(bpm - askedBpm) <= NEARLY * askedBpm;
};

/**
 * The beat that the taps count in, as soon as there is only one way to understand them; its counts are pulses since
 * the count-in began. A leader may count all of it or leave out bars at its beginning, as "one two three four" alone.
 * Two bars of four are known at the fourth tap: "one – two – | one two" has got faster then, and "one two three four"
 * has not.
 */
export const readCount = (
  taps: readonly CountTap[],
  length: CountLength,
  askedBpm: number,
): Estimate | null => {
  for (let i = 0; i < taps.length - 1; i += 1) {
    if (!taps[i]?.opens) continue;
    const since = taps.slice(i);
    const [read, other] = readAll(since, length);
    if (!read) continue;
    const isClear = !other && read.off <= 1 && isEnough(since, length, askedBpm, read.estimate);
    return isClear ? read.estimate : null;
  }
  return null;
};
