import { type Course, isHeld, type Pending, type Span } from './course.ts';
import { crossLine, stopTake } from './cross-line.ts';
import { ruleOf } from './cue-table.ts';
import { holdAt } from './cues/hold.ts';
import { placeOf, writePiece } from './enter-bar.ts';
import { calledHoldPulse, isHeldInLeg, isHeldWithin, writtenHoldPulse } from './hold-onset.ts';
import type { Loop } from './manner.ts';
import type { Moment } from './moment.ts';
import { lastBarsIndex, type Spot } from './spot.ts';
import { countAt, msAt, type Tempo } from './tempo.ts';
import { endHold, nextRelease } from './while-held.ts';
import { type Outcome, writeLandings } from './write-landings.ts';
import { actWrittenDynamic, nextWrittenDynamic } from './written-manner.ts';
import { TOLERANCE_PULSES } from './written-marks.ts';
import { actWrittenTempo, nextWrittenTempo } from './written-tempo.ts';

/** The first pulse of the span, at or after what has been done, on which the cue can land. */
const pulseFor = (course: Course, span: Span, { fromCount }: Pending): number => {
  const from = Math.max(fromCount, course.count) - span.zero;
  return span.zero + Math.max(0, Math.ceil(from - TOLERANCE_PULSES));
};

/** Where in the bar a called hold lands, if it is for this bar and its notice is over by then. */
const chordFor = (course: Course, span: Span, { cue, fromCount }: Pending): number => {
  if (span.kind !== 'bar' || cue.kind !== 'hold') return Number.POSITIVE_INFINITY;
  const count = span.zero + calledHoldPulse(cue, course.spot as Spot);
  const from = Math.max(fromCount, course.count) - TOLERANCE_PULSES;
  return count >= from ? count : Number.POSITIVE_INFINITY;
};

/** The count within the span at which a cue lands; Infinity for those that land on lines. */
const dueAt = (course: Course, span: Span, pending: Pending): number => {
  const boundary = ruleOf(pending.cue)?.boundary(pending.cue);
  if (boundary === 'pulse') return pulseFor(course, span, pending);
  return boundary === 'chord' ? chordFor(course, span, pending) : Number.POSITIVE_INFINITY;
};

/** The pulse up to which everything has been done, so much beyond it that nothing is found twice. */
const pulseNow = (course: Course, span: Span): number => course.count - span.zero + TOLERANCE_PULSES;

/** The pulse of the bar at which the chart says hold: what lies at this very pulse has not been done yet. */
const writtenHold = (course: Course, span: Span): number =>
  span.kind === 'bar'
    ? writtenHoldPulse(course.spot as Spot, span.coming.bar, course.count - span.zero - TOLERANCE_PULSES)
    : Number.POSITIVE_INFINITY;

/**
 * What comes next on the course: a pulse on which something lands or is written, or the end of the span. While
 * the band holds, its release: at Infinity while nobody can say when.
 */
export const nextEvent = (course: Course): Moment => {
  if (isHeld(course)) return nextRelease(course);
  const span = course.span as Span;
  let count = span.end;
  for (const pending of course.pending) count = Math.min(count, dueAt(course, span, pending));
  if (span.kind === 'bar') {
    const { bar } = span.coming;
    const from = pulseNow(course, span);
    const written = Math.min(nextWrittenTempo(course.spot as Spot, bar, from), nextWrittenDynamic(bar, from));
    count = Math.min(count, span.zero + written, span.zero + writtenHold(course, span));
  }
  if (count > span.end - TOLERANCE_PULSES) count = span.end;
  return { count, ms: msAt(course.tempo as Tempo, count) };
};

/** A pulse within the span: what is written there acts first, then the cues that land there, holds last. */
const passPulse = (course: Course, at: Moment): void => {
  const span = course.span as Span;
  const spot = course.spot as Spot;
  const pulse = at.count - span.zero;
  // Twice the tolerance: the pulse was found with it, and rounding must not leave the cue behind.
  const due = course.pending.filter((p) => dueAt(course, span, p) <= at.count + 2 * TOLERANCE_PULSES);
  const holdsHere = writtenHold(course, span) <= pulse + TOLERANCE_PULSES;
  if (span.kind === 'bar') {
    const from = pulseNow(course, span);
    actWrittenDynamic(course, spot, span.coming.bar, from, { ...at, pulse });
    actWrittenTempo(course, spot, span.coming.bar, from, { ...at, pulse });
  }
  course.count = Math.max(course.count, at.count);
  const stops = due.filter(({ cue }) => ruleOf(cue)?.turn === 'end');
  if (stops.length > 0) {
    course.pending = course.pending.filter((pending) => !stops.includes(pending));
    stopTake(course, at, stops);
    return;
  }

  course.pending = course.pending.filter((pending) => !due.includes(pending));
  const holds = due.filter(({ cue }) => cue.kind === 'hold');
  const land = (pending: Pending): Outcome => ({
    pending,
    refused: ruleOf(pending.cue)?.land?.(course, pending.cue, at) ?? null,
  });
  const outcomes = [...due.filter((pending) => !holds.includes(pending)), ...holds].map(land);
  if (holdsHere && !isHeld(course)) holdAt(course, at);
  writePiece(course, at.ms);
  const place = span.kind === 'bar' ? placeOf(spot, pulse) : span.place;
  writeLandings(course, outcomes, at, place, span.kind === 'bar' ? span.coming.index : span.nextBar);
};

/** Goes on to the next event and lets it happen. */
export const step = (course: Course, event: Moment): void => {
  if (isHeld(course)) endHold(course, event);
  else if (event.count >= (course.span as Span).end) crossLine(course, event);
  else passPulse(course, event);
};

/** Lets everything happen that lies at or before `tMs`. */
export const walkTo = (course: Course, tMs: number): void => {
  while (course.state === 'rolling') {
    const event = nextEvent(course);
    if (!(event.ms <= tMs)) return;
    step(course, event);
  }
};

/**
 * Goes on up to the count that is reached at `tMs`, and answers it. What lies exactly at that count has not
 * happened yet: a cue may still land there. Within a hold it is the count of the line at which the band goes on.
 * Infinity where the take ends before.
 */
export const walkToCount = (course: Course, tMs: number): number => {
  while (course.state === 'rolling') {
    const reached = countAt(course.tempo as Tempo, tMs);
    const event = nextEvent(course);
    // While the band holds, the next pulse is the one with which it goes on.
    if (isHeld(course) && event.ms >= tMs) return event.count;
    const isLater = !isHeld(course) && event.count >= reached - TOLERANCE_PULSES;
    if (isLater) return Math.max(reached, course.count);
    step(course, event);
  }
  return Number.POSITIVE_INFINITY;
};

/** Goes on until the log holds `n` bars, or the take has ended. */
export const walkBars = (course: Course, n: number): void => {
  while (course.state === 'rolling' && course.log.bars.length < n) step(course, nextEvent(course));
};

/** A cue that can not land before the leg is left. */
const waitsBeyondLeg = ({ cue }: Pending, spot: Spot): boolean =>
  cue.kind === 'hold' ? !isHeldInLeg(cue, spot) : ruleOf(cue)?.boundary(cue) === 'roadEnd';

/** A cue that can not land while a loop goes round. */
const waitsBeyondLoop = ({ cue }: Pending, spot: Spot, { from, to }: Loop): boolean => {
  const boundary = ruleOf(cue)?.boundary(cue);
  if (cue.kind === 'hold') return !isHeldWithin(cue, spot, from, to);
  if (cue.kind === 'break' && boundary === 'lastBars') {
    const first = lastBarsIndex(spot, cue.bars);
    return first < from || first > to;
  }
  return boundary === 'pass' || boundary === 'passCount' || boundary === 'roadEnd';
};

/** Nothing that could land is pending, and a loop or a leg of which no end is known goes round for ever. */
export const goesRound = (course: Course): boolean => {
  const { spot, pending, manner } = course;
  const { loop } = manner;
  // A stop that was called may end the hold, wherever else it would have waited.
  if (!spot || (isHeld(course) && Number.isFinite(nextRelease(course).ms))) return false;
  if (loop) return pending.every((one) => waitsBeyondLoop(one, spot, loop));
  return spot.limit === Number.POSITIVE_INFINITY && pending.every((one) => waitsBeyondLeg(one, spot));
};
