import type { Course, Pending, Span } from './course.ts';
import { crossLine, end, type Outcome, writeLandings } from './cross-line.ts';
import { ruleOf } from './cue-table.ts';
import { type Moment, placeOf, writePiece } from './enter-bar.ts';
import type { Spot } from './spot.ts';
import { countAt, isTempo, msAt, type Tempo } from './tempo.ts';
import { nextWrittenTempo, TOLERANCE_PULSES, writtenTempo } from './written-marks.ts';

const landsOnPulse = ({ cue }: Pending): boolean => ruleOf(cue)?.boundary(cue) === 'pulse';

/** The first pulse of the span, at or after what has been done, on which the cue can land. */
const pulseFor = (course: Course, span: Span, { fromCount }: Pending): number => {
  const from = Math.max(fromCount, course.count) - span.zero;
  return span.zero + Math.max(0, Math.ceil(from - TOLERANCE_PULSES));
};

/** The pulse up to which everything has been done, so much beyond it that nothing is found twice. */
const pulseNow = (course: Course, span: Span): number => course.count - span.zero + TOLERANCE_PULSES;

/** What comes next on the course: a pulse on which something lands or is written, or the end of the span. */
export const nextEvent = (course: Course): Moment => {
  const span = course.span as Span;
  let count = span.end;
  for (const pending of course.pending) {
    if (landsOnPulse(pending)) count = Math.min(count, pulseFor(course, span, pending));
  }
  if (span.kind === 'bar') {
    const written = nextWrittenTempo(course.spot as Spot, span.coming.bar, pulseNow(course, span));
    count = Math.min(count, span.zero + written);
  }
  if (count > span.end - TOLERANCE_PULSES) count = span.end;
  return { count, ms: msAt(course.tempo as Tempo, count) };
};

/** A pulse within the span: what is written there acts first, then the cues that land there. */
const passPulse = (course: Course, at: Moment): void => {
  const span = course.span as Span;
  const spot = course.spot as Spot;
  const pulse = at.count - span.zero;
  if (span.kind === 'bar') {
    const written = writtenTempo(spot, span.coming.bar, pulseNow(course, span), pulse + TOLERANCE_PULSES);
    if (written && isTempo(written.bpm)) {
      course.tempo = { fromCount: at.count, fromMs: at.ms, bpm: written.bpm };
    }
  }
  // Twice the tolerance: the pulse was found with it, and rounding must not leave the cue behind.
  const due = course.pending.filter((p) => landsOnPulse(p) && p.fromCount <= at.count + 2 * TOLERANCE_PULSES);
  course.pending = course.pending.filter((pending) => !due.includes(pending));
  course.count = Math.max(course.count, at.count);
  const stops = due.filter(({ cue }) => ruleOf(cue)?.turn === 'end');
  if (stops.length > 0) {
    end(
      course,
      at,
      stops.map((pending) => ({ pending, refused: null })),
    );
    return;
  }

  const outcomes: Outcome[] = due.map((pending) => ({
    pending,
    refused: ruleOf(pending.cue)?.land?.(course, pending.cue, at) ?? null,
  }));
  writePiece(course, at.ms);
  const place = span.kind === 'bar' ? placeOf(spot, pulse) : span.place;
  writeLandings(course, outcomes, at, place, span.kind === 'bar' ? span.coming.index : span.nextBar);
};

/** Goes on to the next event and lets it happen. */
export const step = (course: Course, event: Moment): void => {
  if (event.count >= (course.span as Span).end) crossLine(course, event);
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
 * happened yet: a cue may still land there. Infinity where the take ends before.
 */
export const walkToCount = (course: Course, tMs: number): number => {
  while (course.state === 'rolling') {
    const reached = countAt(course.tempo as Tempo, tMs);
    const event = nextEvent(course);
    if (event.count >= reached - TOLERANCE_PULSES) return Math.max(reached, course.count);
    step(course, event);
  }
  return Number.POSITIVE_INFINITY;
};

/** Goes on until the log holds `n` bars, or the take has ended. */
export const walkBars = (course: Course, n: number): void => {
  while (course.state === 'rolling' && course.log.bars.length < n) step(course, nextEvent(course));
};

/** Nothing but cues for the end of the road is pending, and no end is known: the leg goes round for ever. */
export const goesRound = (course: Course): boolean =>
  course.spot?.limit === Number.POSITIVE_INFINITY &&
  course.pending.every(({ cue }) => ruleOf(cue)?.boundary(cue) === 'roadEnd');
