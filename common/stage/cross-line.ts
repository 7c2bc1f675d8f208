import { beginCount } from './begin-count.ts';
import { type Course, copyCourse, NO_LOG, type Pending, type Span } from './course.ts';
import type { Cue } from './cue.ts';
import { type Boundary, refusal, type Turn } from './cue-rule.ts';
import { ruleOf } from './cue-table.ts';
import { isRefusal } from './cues/find-spot.ts';
import { beginLoop, loopTarget } from './cues/loop.ts';
import { goToTarget } from './cues/moves.ts';
import { TAG_GONE, tagLeg } from './cues/tag.ts';
import { endCourse, enterBar, placeOf } from './enter-bar.ts';
import { type Line, lineOf } from './line.ts';
import { leaveLoop, nextRound } from './loop-round.ts';
import type { Moment } from './moment.ts';
import type { Refusal } from './refusal.ts';
import { atBar, atPass, barOf, enterLeg, lastBarsIndex, type Spot } from './spot.ts';
import { bpmAt, type Tempo } from './tempo.ts';
import { type Outcome, writeLandings } from './write-landings.ts';
import { TOLERANCE_PULSES } from './written-marks.ts';

/** A take that has run for so many bars was forgotten: it ends, so that no tablet walks on for ever. */
const MOST_BARS = 100_000;

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

const OVER = refusal('over', 'The tune ends before that.');

/** The take ends; whatever was still to come is dropped. */
const end = (course: Course, at: Moment, outcomes: readonly Outcome[]): void => {
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

const happened = (pending: Pending): Outcome => ({ pending, refused: null });

/** Stopped within so many bars of time, a take can be resumed. */
const RESUME_BARS = 16;

/**
 * The take is stopped by cues that are pending no more. What it would have been without them is kept: somebody may
 * resume. `landed` has landed at that line.
 */
export const stopTake = (
  course: Course,
  at: Moment,
  stops: readonly Pending[],
  landed: readonly Outcome[] = [],
): void => {
  const span = course.span as Span;
  const barPulses = span.kind === 'count' ? span.barPulses : span.end - span.zero;
  const barMs = (barPulses * 60_000) / bpmAt(course.tempo as Tempo, at.ms);
  const pulse = span.kind === 'count' ? 0 : at.count - span.zero;
  const stopped = {
    onward: copyCourse(course, NO_LOG),
    place: placeOf(course.spot as Spot, pulse),
    untilMs: at.ms + RESUME_BARS * barMs,
  };
  end(course, at, [...landed, ...stops.map(happened)]);
  course.stopped = stopped;
};

const LEG_CHANGED = refusal('legChanges', 'Another leg has begun before that.');

const land = (course: Course, pending: Pending, at: Moment): Outcome => {
  const rule = ruleOf(pending.cue);
  const isLate = rule?.forThisLeg && pending.leg !== course.spot?.leg.id;
  return { pending, refused: isLate ? LEG_CHANGED : (rule?.land?.(course, pending.cue, at) ?? null) };
};

const isMove = ({ kind }: Cue): boolean => kind === 'goTo' || kind === 'loop';

/** Where a go to or a loop leads; null where it is neither. */
const targetOf = (course: Course, { cue }: Pending): Spot | Refusal | null => {
  if (cue.kind === 'loop') return loopTarget(course, cue);
  return cue.kind === 'goTo' ? goToTarget(course, cue) : null;
};

/** Who among several go to and loops wins: the last called whose place still stands. It begins or leaves a loop. */
const decideTarget = (
  course: Course,
  calls: readonly Pending[],
  at: Moment,
): { target: Spot | null; outcomes: Outcome[] } => {
  let target: Spot | null = null;
  const outcomes: Outcome[] = [];
  for (const pending of [...calls].reverse()) {
    const found = targetOf(course, pending);
    if (!found) continue;
    const refused = isRefusal(found) ? found : null;
    outcomes.unshift({ pending, refused });
    if (refused || target) continue;
    target = found as Spot;
    if (pending.cue.kind === 'loop') beginLoop(course, pending.cue, at);
    else leaveLoop(course, at.ms);
  }
  return { target, outcomes };
};

/** The bar that follows if nobody says where to go; null at the end of the road. */
const onward = (course: Course, line: Line, at: Moment): Spot | null => {
  const span = course.span as Span;
  const spot = course.spot as Spot;
  if (span.kind === 'count') return spot;
  if (line.round && course.manner.loop) return nextRound(course, at);
  if (!line.last) return atBar(spot, spot.barIndex + 1);
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

const isLastBars = ({ cue }: Pending, spot: Spot): boolean =>
  cue.kind === 'break' && spot.barIndex === lastBarsIndex(spot, cue.bars);

const isAdopt = ({ cue }: Pending): boolean => cue.kind === 'adopt';

/** The tags whose leg is no more the last one in the arrangement that has just been taken. */
const fallenTags = (course: Course, landed: readonly Outcome[]): Outcome[] => {
  if (!landed.some(({ pending }) => isAdopt(pending)) || course.pending.some(isAdopt)) return [];
  const last = course.road.legs.at(-1)?.id;
  const fallen = course.pending.filter(({ cue, lastLeg }) => cue.kind === 'tag' && lastLeg !== last);
  course.pending = course.pending.filter((pending) => !fallen.includes(pending));
  return fallen.map((pending) => ({ pending, refused: TAG_GONE }));
};

/** What decides the place, each in the order called; answers the line as it is after that, and who calls a place. */
const landPlaces = (course: Course, at: Moment, outcomes: Outcome[]): { line: Line; calls: Pending[] } => {
  let line = lineOf(course);
  // Where the passes part, whether this is a pass end depends on the pass counts.
  if (line.parts) {
    for (const p of take(course, at, 'place', (b) => b === 'passCount')) outcomes.push(land(course, p, at));
    line = lineOf(course);
  }
  const calls: Pending[] = [];
  const lands = (b: Boundary) =>
    (b === 'phrase' && line.phrase) ||
    (b === 'round' && line.round) ||
    (line.pass && (b === 'pass' || b === 'passCount'));
  for (const pending of take(course, at, 'place', lands)) {
    if (isMove(pending.cue)) calls.push(pending);
    else outcomes.push(land(course, pending, at));
  }
  outcomes.push(...fallenTags(course, outcomes));
  return { line, calls };
};

const idsOf = (outcomes: readonly Outcome[]): string[] =>
  outcomes.filter(({ refused }) => !refused).map(({ pending }) => pending.id);

/** The band is counted in to a round of a loop, in the metre of its first bar: as for the tune, at least one bar. */
const countRoundIn = (course: Course, spot: Spot, at: Moment, outcomes: readonly Outcome[]): void => {
  const barPulses = barOf(spot)?.pulses ?? 0;
  const pulses = Math.max(1, course.road.countBars) * barPulses;
  beginCount(course, spot, at, { pulses, barPulses, lands: idsOf(outcomes) });
  writeLandings(course, outcomes, at, placeOf(spot), course.bars);
};

/** The bar at the spot begins, with what lands there. */
const beginBar = (course: Course, spot: Spot, line: Line, at: Moment, outcomes: Outcome[]): void => {
  const isLine = (b: Boundary, p: Pending) =>
    b === 'pulse' ||
    (b === 'phrase' && line.phrase) ||
    (b === 'pass' && line.pass) ||
    (b === 'lastBars' && isLastBars(p, spot));
  for (const p of take(course, at, 'bar', isLine)) outcomes.push(land(course, p, at));

  const counted = course.span?.kind === 'count' ? course.span.lands : [];
  const lands = [...counted, ...idsOf(outcomes)];
  const bar = course.bars;
  const landAll = (turn: Turn) => () => {
    const landed = take(course, at, turn, isLine).map((pending) => land(course, pending, at));
    outcomes.push(...landed);
    lands.push(...idsOf(landed));
  };
  enterBar(course, spot, at, lands, { landManner: landAll('manner'), landTempo: landAll('tempo') });
  writeLandings(course, outcomes, at, placeOf(spot), bar);
};

/**
 * Crosses the line at the end of the span: the end wins; then what decides the place, in the order called;
 * then what the bar that begins is like. `landed` has landed by crossing it.
 */
export const crossLine = (course: Course, at: Moment, landed: readonly Outcome[] = []): void => {
  const before = lineOf(course);
  const asItWas = { ...copyCourse(course, NO_LOG), beforeLines: [] };
  course.beforeLines = [asItWas, ...course.beforeLines.slice(0, 1)];
  course.heard = [];
  const stops = take(course, at, 'end', (b) => b === 'pulse' || (b === 'pass' && before.pass));
  if (stops.length > 0) {
    stopTake(course, at, stops, landed);
    return;
  }

  const outcomes: Outcome[] = [...landed];
  const { line, calls } = landPlaces(course, at, outcomes);
  const loopBefore = course.manner.loop;
  const went = decideTarget(course, calls, at);
  outcomes.push(...went.outcomes);
  let target = went.target ?? onward(course, line, at);
  if (!target) {
    const tag = tagOn(course, at);
    outcomes.push(...tag.outcomes);
    target = tag.target;
  }
  if (!target || !barOf(target) || course.bars >= MOST_BARS) {
    end(course, at, outcomes);
    return;
  }

  const { loop } = course.manner;
  const isNewRound = loop !== null && loop !== loopBefore;
  if (isNewRound && loop.countIn && course.span?.kind === 'bar') countRoundIn(course, target, at, outcomes);
  else beginBar(course, target, line, at, outcomes);
};
