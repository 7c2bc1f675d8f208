import { type CalledAt, type Course, copyCourse, type Landing, type Span } from './course.ts';
import { type Boundary, refusal } from './cue-rule.ts';
import { ruleOf } from './cue-table.ts';
import { writePiece } from './enter-bar.ts';
import type { ComingBar } from './place.ts';
import type { Refusal } from './refusal.ts';
import { countAt, type Tempo } from './tempo.ts';
import { walkTo } from './walk.ts';
import { TOLERANCE_PULSES } from './written-marks.ts';

/** Calls a cue on a course. Handed in: calling is what leads here. */
type Hear = (course: Course, called: CalledAt) => unknown;

const NOT_STOPPED = refusal('notStopped', 'Nothing has been stopped.');
const LONG_AGO = refusal('longAgo', 'That was more than 16 bars ago: start from where it stopped.');
const OVER_BY_NOW = refusal('overByNow', 'The tune would be over by now.');
const NOT_PENDING = refusal('notPending', 'That is not on its way.');
const NOT_MISSED = refusal('notMissed', 'It has not just missed its line.');

/** The course as it would be at `atMs` if the take had not been stopped, or why there is none. */
export const ifNotStopped = ({ state, stopped }: Course, atMs: number): Course | Refusal => {
  if (state !== 'ended' || !stopped) return NOT_STOPPED;
  if (atMs > stopped.untilMs) return LONG_AGO;
  const course = copyCourse(stopped.onward);
  walkTo(course, atMs);
  return course.state === 'ended' ? OVER_BY_NOW : course;
};

/** A course on which a cue has landed at the line or the chord that it missed. */
export interface Happened {
  readonly course: Course;
  readonly landing: Landing;
  /** The bar before that line. */
  readonly last: ComingBar | undefined;
}

/** Those can be missed; the others land within a pulse. */
const MISSABLE: readonly Boundary[] = [
  'phrase',
  'pass',
  'passCount',
  'lastBars',
  'roadEnd',
  'round',
  'chord',
];

const lengthOf = ({ end, zero }: Span): number => end - zero;

/** The course at `atMs` if `id` had been called in time for the line that `before` was about to cross. */
const ifCalledBefore = (
  before: Course,
  again: readonly CalledAt[],
  now: Course,
  id: string,
  atMs: number,
  hear: Hear,
): Course => {
  const course = copyCourse(before);
  // History stays as it was: the bars are told once more behind it.
  course.bars = now.bars;
  course.countLines = now.countLines;
  const pending = now.pending.find((one) => one.id === id);
  const inTime = pending && { ...pending, fromCount: (before.span as Span).end };
  const isKnown = before.pending.some((one) => one.id === id);
  if (inTime && isKnown) course.pending = before.pending.map((one) => (one.id === id ? inTime : one));
  else if (inTime) course.pending = [...before.pending, inTime];
  for (const called of again) if (called.id !== id) hear(course, called);
  walkTo(course, atMs);
  return course;
};

/**
 * The course as it would be at `atMs` if the cue `id` had landed where it has just missed to: at the line with which
 * this bar began, or at a chord less than a bar ago. What was called since is called again.
 */
export const ifHappened = (course: Course, id: string, atMs: number, hear: Hear): Happened | Refusal => {
  const pending = course.pending.find((one) => one.id === id);
  const boundary = pending && ruleOf(pending.cue)?.boundary(pending.cue);
  if (!boundary) return NOT_PENDING;
  if (!MISSABLE.includes(boundary) || !course.tempo) return NOT_MISSED;
  const nowCount = countAt(course.tempo as Tempo, atMs);
  let span = course.span as Span;
  let again = course.heard;
  // Only a chord can lie in the bar before: a line that began it is a bar ago.
  const lines = boundary === 'chord' ? course.beforeLines : course.beforeLines.slice(0, 1);
  for (const before of lines) {
    const other = ifCalledBefore(before, again, course, id, atMs, hear);
    const landing = other.log.landings.find((one) => one.id === id && !one.refused);
    if (landing && nowCount - landing.count < lengthOf(span) - TOLERANCE_PULSES) {
      const last = before.span?.kind === 'bar' ? before.span.coming : undefined;
      return { course: other, landing, last };
    }
    span = before.span as Span;
    again = [...before.heard, ...again];
  }
  return NOT_MISSED;
};

/** From `atMs` on the take is as on the other course; what was before stays in the log as it was. */
export const goOnAs = (course: Course, other: Course, atMs: number): void => {
  const { log } = course;
  const clamp = (ms: number) => Math.max(ms, atMs);
  for (const bar of other.log.bars) log.bars.push({ ...bar, startMs: clamp(bar.startMs) });
  const hasLanded = (id: string) => log.landings.some((landing) => landing.id === id && !landing.refused);
  for (const landing of other.log.landings) {
    if (!hasLanded(landing.id)) log.landings.push({ ...landing, ms: clamp(landing.ms) });
  }
  if (other.road !== course.road) log.roads.push({ fromMs: atMs, road: other.road });
  log.manners.push({ fromMs: atMs, manner: other.manner });
  const isNewBar = other.span?.kind === 'bar' && other.log.bars.length > 0;
  const coming = log.bars.at(-1) as ComingBar;
  const span = isNewBar ? { ...(other.span as Extract<Span, { kind: 'bar' }>), coming } : other.span;
  Object.assign(course, other, { log, span });
  writePiece(course, atMs);
};
