import type { Course, Span } from './course.ts';
import { linesInCount } from './lines-to.ts';
import type { Moment } from './moment.ts';
import type { ComingBar, Place } from './place.ts';
import { mannerOfBar, restManner, settleManner, settleSolo } from './settle-manner.ts';
import { barOf, barsOf, type Spot } from './spot.ts';
import { writtenBreak } from './written-marks.ts';
import { actWrittenTempo } from './written-tempo.ts';

export const placeOf = (spot: Spot, pulse = 0): Place => ({
  leg: spot.leg.id,
  pass: spot.pass,
  barIndex: spot.barIndex,
  pulse,
});

/**
 * The instant at which something is seen to happen: never before what was seen last. A time found through a
 * count may lie a last bit before that, and bars between a press and its arrival have passed already.
 */
export const seenMs = (course: Course, ms: number): number =>
  Math.max(ms, course.log.pieces.at(-1)?.fromMs ?? Number.NEGATIVE_INFINITY);

/** Writes down that from `ms` on the band is in this span, or, without one, that the take has ended. */
export const writePiece = (course: Course, ms: number): void => {
  course.log.pieces.push({ fromMs: seenMs(course, ms), span: course.span, tempo: course.tempo });
};

const comingBar = (course: Course, spot: Spot, at: Moment, lands: readonly string[]): ComingBar => {
  const { leg } = spot;
  const out = course.outBars > 0;
  return {
    index: course.bars,
    startMs: seenMs(course, at.ms),
    place: placeOf(spot),
    bar: barOf(spot) as ComingBar['bar'],
    leg,
    passes: Number.isFinite(spot.limit) ? spot.limit : (leg.passes as 'open' | 'vamp'),
    passBars: barsOf(spot).length,
    ...(out ? { out: course.outHit ? 'hit' : 'out', outBarsLeft: course.outBars - 1 } : {}),
    ...mannerOfBar(course, spot, at.count),
    lands,
  };
};

const actWritten = (course: Course, spot: Spot, at: Moment, fromPulse: number): void => {
  const bar = barOf(spot) as ComingBar['bar'];
  const bars = writtenBreak(course, spot, bar, at.count);
  // Within a break that was called, a written one is not hit again.
  if (bars > 0 && course.outBars === 0) course.outHit = true;
  course.outBars = Math.max(course.outBars, bars);
  actWrittenTempo(course, spot, bar, Number.NEGATIVE_INFINITY, { ...at, pulse: fromPulse });
};

/**
 * The bar at the spot begins. What is written in it acts, then what was called (`landManner`, and `landTempo` on
 * the bar that has begun). `fromPulse` is not 0 where the band is found to be in the middle of the bar.
 */
export const enterBar = (
  course: Course,
  spot: Spot,
  at: Moment,
  lands: string[],
  {
    fromPulse = 0,
    landManner,
    landTempo,
  }: { fromPulse?: number; landManner?: () => void; landTempo?: () => void } = {},
): void => {
  if (course.span?.kind === 'count') course.countLines += linesInCount(course.span, at.count);
  course.state = 'rolling';
  course.spot = spot;
  actWritten(course, spot, at, fromPulse);
  settleManner(course, spot, at, fromPulse);
  landManner?.();
  settleSolo(course, spot, at);
  const zero = at.count - fromPulse;
  const coming = comingBar(course, spot, at, lands);
  const { countLines } = course;
  course.span = { kind: 'bar', zero, end: zero + coming.bar.pulses, coming, countLines };
  landTempo?.();
  course.count = Math.max(course.count, at.count);
  course.bars += 1;
  if (course.outBars > 0) course.outBars -= 1;
  course.outHit = false;
  course.log.bars.push(coming);
  writePiece(course, at.ms);
};

/** Ends the take. */
export const endCourse = (course: Course, { count, ms }: Moment): void => {
  course.state = 'ended';
  course.spot = null;
  course.span = null as Span | null;
  course.tempo = null;
  course.count = Math.max(course.count, count);
  course.outBars = 0;
  course.outHit = false;
  restManner(course, ms);
  writePiece(course, ms);
};
