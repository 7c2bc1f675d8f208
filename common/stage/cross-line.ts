import type { Course, Landing, Pending, Span } from './course.ts';
import type { Cue } from './cue.ts';
import { type Boundary, refusal, type Turn } from './cue-rule.ts';
import { ruleOf } from './cue-table.ts';
import { goToTarget } from './cues/moves.ts';
import { tagLeg } from './cues/tag.ts';
import { endCourse, enterBar, type Moment, placeOf, seenMs } from './enter-bar.ts';
import type { Place } from './place.ts';
import type { Refusal } from './refusal.ts';
import { atBar, atPass, barOf, barsOf, enterLeg, partingOf, type Spot } from './spot.ts';
import { TOLERANCE_PULSES } from './written-marks.ts';

/** A take that has run for so many bars was forgotten: it ends, so that no tablet walks on for ever. */
const MOST_BARS = 100_000;

/** What a bar line is the end of. */
interface Line {
  readonly phrase: boolean;
  readonly pass: boolean;
  /** The last pass parts from the others here: pass counts land here too. */
  readonly parts: boolean;
}

const boundaryOf = ({ cue }: Pending): Boundary | undefined => ruleOf(cue)?.boundary(cue);

const isReached = ({ fromCount }: Pending, { count }: Moment): boolean =>
  fromCount <= count + TOLERANCE_PULSES;

/** Takes the cues that land at this line in this turn from those that are pending, in the order called. */
const take = (
  course: Course,
  at: Moment,
  turn: Turn,
  lands: (boundary: Boundary, pending: Pending) => boolean,
): Pending[] => {
  const due: Pending[] = [];
  const rest: Pending[] = [];
  for (const pending of course.pending) {
    const boundary = boundaryOf(pending);
    const here = boundary !== undefined && ruleOf(pending.cue)?.turn === turn && lands(boundary, pending);
    (here && isReached(pending, at) ? due : rest).push(pending);
  }
  if (due.length > 0) course.pending = rest;
  return due;
};

export interface Outcome {
  readonly pending: Pending;
  readonly refused: Refusal | null;
}

/** Writes down what became of the cues that were due: all at one place. */
export const writeLandings = (
  course: Course,
  outcomes: readonly Outcome[],
  at: Moment,
  place: Place,
  bar: number,
): void => {
  for (const { pending, refused } of outcomes) {
    const { id, cue, by } = pending;
    const landing: Landing = {
      id,
      cue,
      ...(by === undefined ? {} : { by }),
      ...(refused ? { refused } : {}),
      count: at.count,
      ms: seenMs(course, at.ms),
      place,
      bar,
    };
    course.log.landings.push(landing);
  }
};

const OVER = refusal('over', 'The tune ends before that.');

/** The take ends; whatever was still to come is dropped. */
export const end = (course: Course, at: Moment, outcomes: readonly Outcome[]): void => {
  const spot = course.spot as Spot;
  const span = course.span as Span;
  const pulse = span.kind === 'count' ? 0 : at.count - span.zero;
  const dropped = course.pending.map((pending) => ({ pending, refused: OVER }));
  const within = span.kind === 'bar' && at.count < span.end;
  writeLandings(
    course,
    [...outcomes, ...dropped],
    at,
    placeOf(spot, pulse),
    within ? span.coming.index : course.bars,
  );
  course.pending = [];
  endCourse(course, at);
};

const land = (course: Course, pending: Pending, at: Moment): Outcome => ({
  pending,
  refused: ruleOf(pending.cue)?.land?.(course, pending.cue, at) ?? null,
});

/** The line at the end of the span: read again after pass counts have landed where the passes part. */
const lineOf = (course: Course): Line => {
  const span = course.span as Span;
  const spot = course.spot as Spot;
  if (span.kind === 'count') return { phrase: spot.barIndex >= 0, pass: false, parts: false };
  if (spot.barIndex < 0) return { phrase: true, pass: false, parts: false };
  const next = spot.barIndex + 1;
  const pass = next >= barsOf(spot).length;
  const parts = spot.parted === '' && next === partingOf(spot.leg);
  return { phrase: pass || span.coming.bar.phraseEnd, pass, parts };
};

/** Who among several go to wins: the last called whose place still stands. */
const decideTarget = (
  course: Course,
  calls: readonly Pending[],
): { target: Spot | null; outcomes: Outcome[] } => {
  let target: Spot | null = null;
  const outcomes: Outcome[] = [];
  for (const pending of [...calls].reverse()) {
    const found = goToTarget(course, pending.cue as Extract<Cue, { kind: 'goTo' }>);
    if ('why' in found) outcomes.unshift({ pending, refused: found });
    else {
      target ??= found;
      outcomes.unshift({ pending, refused: null });
    }
  }
  return { target, outcomes };
};

/** The bar that follows if nobody says where to go; null at the end of the road. */
const onward = (course: Course, line: Line): Spot | null => {
  const span = course.span as Span;
  const spot = course.spot as Spot;
  if (span.kind === 'count') return spot;
  if (!line.pass) return atBar(spot, spot.barIndex + 1);
  return spot.pass < spot.limit ? atPass(spot, spot.pass + 1) : enterLeg(course.road, spot.next);
};

const SUPERSEDED = refusal('superseded', 'Another tag was called after it.');

/** At the end of the road the tag called last is played, if one was called. */
const tagOn = (course: Course, at: Moment): { target: Spot | null; outcomes: Outcome[] } => {
  const tags = course.pending.filter((p) => boundaryOf(p) === 'roadEnd' && isReached(p, at));
  const last = tags.at(-1);
  if (!last) return { target: null, outcomes: [] };
  course.pending = course.pending.filter((pending) => !tags.includes(pending));
  const leg = tagLeg(course, last.id, last.cue as Extract<Cue, { kind: 'tag' }>);
  const limit = leg.passes as number;
  const target: Spot = {
    leg,
    next: course.road.legs.length,
    pass: 1,
    limit,
    limitCalled: true,
    barIndex: 0,
    parted: '',
  };
  const outcomes = tags.map((pending) => ({ pending, refused: pending === last ? null : SUPERSEDED }));
  return { target, outcomes };
};

const isLastBars = ({ cue }: Pending, spot: Spot): boolean => {
  if (cue.kind !== 'break' || spot.barIndex < 0) return false;
  const left = barsOf(spot).length - spot.barIndex;
  return left === cue.bars || (spot.barIndex === 0 && left < cue.bars);
};

/** What decides the place, each in the order called; answers the line as it is after that, and the go tos. */
const landPlaces = (course: Course, at: Moment, outcomes: Outcome[]): { line: Line; calls: Pending[] } => {
  let line = lineOf(course);
  // Where the passes part, whether this is a pass end depends on the pass counts.
  if (line.parts) {
    for (const p of take(course, at, 'place', (b) => b === 'passCount')) outcomes.push(land(course, p, at));
    line = lineOf(course);
  }
  const calls: Pending[] = [];
  const lands = (b: Boundary) =>
    (b === 'phrase' && line.phrase) || (line.pass && (b === 'pass' || b === 'passCount'));
  for (const pending of take(course, at, 'place', lands)) {
    if (pending.cue.kind === 'goTo') calls.push(pending);
    else outcomes.push(land(course, pending, at));
  }
  return { line, calls };
};

/**
 * Crosses the line at the end of the span: the end wins; then what decides the place, in the order called;
 * then what the bar that begins is like. `landed` has landed by crossing it.
 */
export const crossLine = (course: Course, at: Moment, landed: readonly Outcome[] = []): void => {
  const before = lineOf(course);
  const stops = take(course, at, 'end', (b) => b === 'pulse' || (b === 'pass' && before.pass));
  if (stops.length > 0) {
    end(course, at, [...landed, ...stops.map((pending) => ({ pending, refused: null }))]);
    return;
  }

  const outcomes: Outcome[] = [...landed];
  const { line, calls } = landPlaces(course, at, outcomes);
  const went = decideTarget(course, calls);
  outcomes.push(...went.outcomes);
  let target = went.target ?? onward(course, line);
  if (!target) {
    const tag = tagOn(course, at);
    outcomes.push(...tag.outcomes);
    target = tag.target;
  }
  if (!target || !barOf(target) || course.bars >= MOST_BARS) {
    end(course, at, outcomes);
    return;
  }

  const next = target;
  const isBreakLine = (b: Boundary, p: Pending) =>
    (b === 'phrase' && line.phrase) ||
    (b === 'pass' && line.pass) ||
    (b === 'lastBars' && isLastBars(p, next));
  for (const p of take(course, at, 'bar', isBreakLine)) outcomes.push(land(course, p, at));

  const tempos = take(course, at, 'tempo', () => true);
  const lands = [...outcomes.filter((o) => !o.refused).map((o) => o.pending.id), ...tempos.map((p) => p.id)];
  const bar = course.bars;
  const landTempo = () => {
    for (const pending of tempos) outcomes.push(land(course, pending, at));
  };
  enterBar(course, next, at, lands, { landTempo });
  writeLandings(course, outcomes, at, placeOf(next), bar);
};
