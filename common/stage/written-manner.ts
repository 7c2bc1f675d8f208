import type { Mark } from '../chart/bar-music.ts';
import type { RoadBar } from '../form/road.ts';
import { changeManner } from './change-manner.ts';
import type { Course } from './course.ts';
import type { Manner } from './manner.ts';
import { barOf, barsOf, type Spot } from './spot.ts';
import { isMeantFor, TOLERANCE_PULSES } from './written-marks.ts';

/** The last mark of a kind in the bar that is meant for its pass and begins after `after` and by `by` (pulses). */
const lastMark = <Kind extends Mark['kind']>(
  course: Course,
  spot: Spot,
  { bar, count, after, by }: { bar: RoadBar; count: number; after: number; by: number },
  kind: Kind,
): Extract<Mark, { kind: Kind }> | null => {
  let found: Extract<Mark, { kind: Kind }> | null = null;
  let foundAt = after;
  for (const written of bar.marks) {
    const { mark, atPulse } = written;
    if (mark.kind !== kind || atPulse > by || !(atPulse > after) || atPulse < foundAt) continue;
    if (!isMeantFor(course, written, spot, count)) continue;
    found = mark as Extract<Mark, { kind: Kind }>;
    foundAt = atPulse;
  }
  return found;
};

/**
 * Index of the bar at or before the spot from which stop-time is written to the end of the section; −1 where it is
 * not written. A section begins with the bar that carries its letter, or with the pass.
 */
const stopTimeFrom = (course: Course, spot: Spot, count: number): number => {
  const bars = barsOf(spot);
  for (let i = spot.barIndex; i >= 0; i -= 1) {
    const bar = bars[i];
    if (bar?.marks.some((one) => one.mark.kind === 'stopTime' && isMeantFor(course, one, spot, count)))
      return i;
    if (bar?.content.letter) return -1;
  }
  return -1;
};

const stopTimeIn = (course: Course, spot: Spot, count: number): Manner['stopTime'] => {
  const { stopTime } = course.manner;
  if (stopTime === 'called') return stopTime;
  const from = stopTimeFrom(course, spot, count);
  if (from < 0) return null;
  return stopTime === 'off' && from < spot.barIndex ? stopTime : 'written';
};

/**
 * What the chart says of the manner where the bar at the spot begins: stop-time and a feel from the bar on, wherever
 * in it they stand, a dynamic from its pulse. `count` is that of the bar's beginning, `pulse` where it is entered.
 */
export const writtenManner = (
  course: Course,
  spot: Spot,
  count: number,
  pulse: number,
): Pick<Manner, 'stopTime' | 'writtenFeel' | 'writtenDynamic'> => {
  const bar = barOf(spot) as RoadBar;
  const begin = { bar, count, after: Number.NEGATIVE_INFINITY };
  const feel = lastMark(course, spot, { ...begin, by: Number.POSITIVE_INFINITY }, 'feel');
  const dynamic = lastMark(course, spot, { ...begin, by: pulse + TOLERANCE_PULSES }, 'dynamic');
  return {
    stopTime: stopTimeIn(course, spot, count),
    writtenFeel: feel?.feel ?? course.manner.writtenFeel,
    writtenDynamic: dynamic?.sign ?? course.manner.writtenDynamic,
  };
};

/** Lets the dynamic act that begins in the bar after pulse `after` and by the pulse at which the band is. */
export const actWrittenDynamic = (
  course: Course,
  spot: Spot,
  bar: RoadBar,
  after: number,
  at: { readonly pulse: number; readonly count: number; readonly ms: number },
): void => {
  const within = { bar, count: at.count - at.pulse, after, by: at.pulse + TOLERANCE_PULSES };
  const mark = lastMark(course, spot, within, 'dynamic');
  if (mark) changeManner(course, { writtenDynamic: mark.sign }, at.ms);
};

/** The first pulse after `after` at which a dynamic is written for some pass; Infinity where none is. */
export const nextWrittenDynamic = (bar: RoadBar, after: number): number => {
  let first = Number.POSITIVE_INFINITY;
  for (const { mark, atPulse } of bar.marks) {
    if (mark.kind === 'dynamic' && atPulse > after) first = Math.min(first, atPulse);
  }
  return first;
};
