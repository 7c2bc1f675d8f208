import type { RoadBar, RoadMark } from '../form/road.ts';
import { type Course, copyCourse, type Pending } from './course.ts';
import { goOn, lastChorus, oneMore } from './cues/pass-counts.ts';
import { barsOf, isLastPass, type Spot } from './spot.ts';

/** Counts closer than this are the same: boundaries are found through times, which are rounded. */
export const TOLERANCE_PULSES = 1e-6;

const PASS_COUNTS = { lastChorus, oneMore, goOn };

/** Lets a pass count called earlier take effect on a course, where it is one and lands by `passEnd`. */
const countIn = (course: Course, { cue, fromCount, leg }: Pending, passEnd: number): void => {
  if (fromCount > passEnd + TOLERANCE_PULSES || leg !== course.spot?.leg.id) return;
  if (cue.kind === 'lastChorus' || cue.kind === 'oneMore' || cue.kind === 'goOn') {
    PASS_COUNTS[cue.kind].land?.(course, cue as never, { count: passEnd, ms: 0 });
  }
};

/**
 * The pass will be the last with what has been called so far. A break "last x:" in open solos acts as soon
 * as the last chorus is called, long before it lands; that moves nobody's place.
 */
export const willBeLast = (course: Course, spot: Spot, count: number): boolean => {
  // No pass count lands while a loop goes round.
  if (course.manner.loop) return isLastPass(spot);
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

/** The same for a mark that moves nobody's place: in the last pass it acts as soon as the last chorus is called. */
export const isMeantFor = (course: Course, written: RoadMark, spot: Spot, count: number): boolean =>
  isForPass(written, spot) || (written.pass === 'last' && willBeLast(course, spot, count));

/** Bars for which a break written in the bar lasts; 0 where there is none. */
export const writtenBreak = (course: Course, spot: Spot, bar: RoadBar, count: number): number => {
  let bars = 0;
  for (const written of bar.marks) {
    if (written.mark.kind !== 'break') continue;
    if (isMeantFor(course, written, spot, count)) bars = Math.max(bars, written.mark.bars);
  }
  return bars;
};
