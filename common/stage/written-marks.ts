import type { Mark } from '../chart/bar-music.ts';
import type { RoadBar, RoadMark } from '../form/road.ts';
import { type Course, copyCourse, type Pending } from './course.ts';
import { goOn, lastChorus, oneMore } from './cues/pass-counts.ts';
import { barsOf, isLastPass, type Spot } from './spot.ts';

/** Counts closer than this are the same: boundaries are found through times, which are rounded. */
export const TOLERANCE_PULSES = 1e-6;

const PASS_COUNTS = { lastChorus, oneMore, goOn };

/** Lets a pass count called earlier take effect on a course, where it is one and lands by `passEnd`. */
const countIn = (course: Course, { cue, fromCount }: Pending, passEnd: number): void => {
  if (fromCount > passEnd + TOLERANCE_PULSES) return;
  if (cue.kind === 'lastChorus' || cue.kind === 'oneMore' || cue.kind === 'goOn') {
    PASS_COUNTS[cue.kind].land?.(course, cue as never, { count: passEnd, ms: 0 });
  }
};

/**
 * The pass will be the last with what has been called so far. A break "last x:" in open solos acts as soon
 * as the last chorus is called, long before it lands; that moves nobody's place.
 */
const willBeLast = (course: Course, spot: Spot, count: number): boolean => {
  let passEnd = count;
  for (const bar of barsOf(spot).slice(Math.max(0, spot.barIndex))) passEnd += bar.pulses;
  const ahead = copyCourse(course);
  ahead.spot = spot;
  for (const pending of course.pending) countIn(ahead, pending, passEnd);
  return isLastPass(ahead.spot);
};

/** True where a mark is meant for the pass at the spot. */
export const isForPass = ({ pass }: RoadMark, spot: Spot): boolean =>
  pass === undefined || pass === spot.pass || (pass === 'last' && isLastPass(spot));

/** Bars for which a break written in the bar lasts; 0 where there is none. */
export const writtenBreak = (course: Course, spot: Spot, bar: RoadBar, count: number): number => {
  let bars = 0;
  for (const written of bar.marks) {
    if (written.mark.kind !== 'break') continue;
    const forLast = written.pass === 'last' && willBeLast(course, spot, count);
    if (forLast || isForPass(written, spot)) bars = Math.max(bars, written.mark.bars);
  }
  return bars;
};

/** A tempo written in a bar, and the pulse at which it begins. */
export interface WrittenTempo {
  readonly bpm: number;
  readonly atPulse: number;
}

const isTempoMark = (mark: Mark): mark is Extract<Mark, { kind: 'tempo' }> => mark.kind === 'tempo';

/** The last tempo that begins in the bar after pulse `after` (exclusive) and by pulse `by` (inclusive). */
export const writtenTempo = (spot: Spot, bar: RoadBar, after: number, by: number): WrittenTempo | null => {
  let found: WrittenTempo | null = null;
  for (const written of bar.marks) {
    const { mark, atPulse } = written;
    if (isTempoMark(mark) && atPulse > after && atPulse <= by && isForPass(written, spot)) {
      if (!found || atPulse >= found.atPulse) found = { bpm: mark.bpm, atPulse };
    }
  }
  return found;
};

/** The first pulse after `after` at which a tempo written in the bar begins; Infinity where there is none. */
export const nextWrittenTempo = (spot: Spot, bar: RoadBar, after: number): number => {
  let first = Number.POSITIVE_INFINITY;
  for (const written of bar.marks) {
    if (written.mark.kind === 'tempo' && written.atPulse > after && isForPass(written, spot)) {
      first = Math.min(first, written.atPulse);
    }
  }
  return first;
};
