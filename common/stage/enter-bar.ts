import type { Course, Span } from './course.ts';
import type { ComingBar, Place } from './place.ts';
import { barOf, barsOf, type Spot } from './spot.ts';
import { isTempo } from './tempo.ts';
import { TOLERANCE_PULSES, writtenBreak, writtenTempo } from './written-marks.ts';

export interface Moment {
  readonly count: number;
  readonly ms: number;
}

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

const comingBar = (course: Course, spot: Spot, startMs: number, lands: readonly string[]): ComingBar => {
  const { leg } = spot;
  const out = course.outBars > 0;
  return {
    index: course.bars,
    startMs,
    place: placeOf(spot),
    bar: barOf(spot) as ComingBar['bar'],
    leg,
    passes: Number.isFinite(spot.limit) ? spot.limit : (leg.passes as 'open' | 'vamp'),
    passBars: barsOf(spot).length,
    ...(out ? { out: course.outHit ? 'hit' : 'out', outBarsLeft: course.outBars - 1 } : {}),
    lands,
  };
};

const actWritten = (course: Course, spot: Spot, at: Moment, fromPulse: number): void => {
  const bar = barOf(spot) as ComingBar['bar'];
  const bars = writtenBreak(course, spot, bar, at.count);
  // Within a break that was called, a written one is not hit again.
  if (bars > 0 && course.outBars === 0) course.outHit = true;
  course.outBars = Math.max(course.outBars, bars);
  const tempo = writtenTempo(spot, bar, Number.NEGATIVE_INFINITY, fromPulse + TOLERANCE_PULSES);
  if (tempo && isTempo(tempo.bpm)) course.tempo = { fromCount: at.count, fromMs: at.ms, bpm: tempo.bpm };
};

/**
 * The bar at the spot begins. What is written in it acts, then what was called (`landTempo`, on the bar that
 * has begun). `fromPulse` is not 0 where the band is found to be in the middle of the bar.
 */
export const enterBar = (
  course: Course,
  spot: Spot,
  at: Moment,
  lands: string[],
  { fromPulse = 0, landTempo }: { fromPulse?: number; landTempo?: () => void } = {},
): void => {
  course.state = 'rolling';
  course.spot = spot;
  actWritten(course, spot, at, fromPulse);
  const zero = at.count - fromPulse;
  const coming = comingBar(course, spot, seenMs(course, at.ms), lands);
  course.span = { kind: 'bar', zero, end: zero + coming.bar.pulses, coming };
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
  writePiece(course, ms);
};
