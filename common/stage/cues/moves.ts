import type { Road } from '../../form/road.ts';
import type { Course } from '../course.ts';
import type { Cue } from '../cue.ts';
import { type CueRule, refusal } from '../cue-rule.ts';
import { enterBar, placeOf, writePiece } from '../enter-bar.ts';
import { placeWords } from '../place-words.ts';
import type { Refusal } from '../refusal.ts';
import { atPass, barsOf, enterLeg, isPass, type Spot } from '../spot.ts';
import { bpmAt, countAt, type Tempo } from '../tempo.ts';
import { writtenTempo } from '../written-marks.ts';

type Start = Extract<Cue, { kind: 'start' }>;
type GoTo = Extract<Cue, { kind: 'goTo' }>;
type Here = Extract<Cue, { kind: 'here' }>;

/** From the call of a start to the first pulse of the count-in. */
const LEAD_MS = 600;
/** A press farther than this from the relay's time is not believed. */
const FARTHEST_PRESS_MS = 1000;

const NO_PLACE = refusal('noSuchPlace', 'There is no such bar in this arrangement.');
const NO_PASS = refusal('noSuchPass', 'It is not played that often.');

/** The spot, or why there is none. A leg left and entered anew has its passes as written. */
const find = (
  course: Course,
  to: { leg: string; barIndex: number; pass?: number | undefined },
): Spot | Refusal => {
  const { spot, road } = course;
  if (!isPass(to.pass)) return NO_PASS;
  const same = spot?.leg.id === to.leg ? spot : null;
  const index = same ? -1 : road.legs.findIndex((leg) => leg.id === to.leg);
  const top = same ? atPass(same, to.pass ?? same.pass) : enterLeg(road, index, to.pass);
  if (!top || !Number.isInteger(to.barIndex) || to.barIndex < 0) return NO_PLACE;
  if (to.barIndex >= barsOf(top).length) return NO_PLACE;
  return atPass(top, top.pass, to.barIndex);
};

const isRefusal = (found: Spot | Refusal): found is Refusal => 'why' in found;

/** More passes than are written, where nobody has said so. */
const tooManyPasses = (course: Course, legId: string, pass: number | undefined): boolean => {
  if (pass === undefined) return false;
  if (course.spot?.leg.id === legId) return pass > course.spot.limit;
  const passes = course.road.legs.find((leg) => leg.id === legId)?.passes;
  return typeof passes === 'number' && pass > passes;
};

const refuseTarget = (
  course: Course,
  to: { leg: string; barIndex: number; pass?: number },
): Refusal | null => {
  const found = find(course, to);
  if (isRefusal(found)) return found;
  return tooManyPasses(course, to.leg, to.pass) ? NO_PASS : null;
};

const startTarget = ({ leg, barIndex, pass }: Start, road: Road) => ({
  leg: leg ?? road.legs[0]?.id ?? '',
  barIndex: barIndex === undefined || barIndex === -1 ? 0 : barIndex,
  ...(pass === undefined ? {} : { pass }),
});

/** A count-in of so many pulses that, with the pick-up, whole bars are filled. */
const countPulses = (countBars: number, barPulses: number, pickUpPulses: number): number => {
  const bars = Math.max(countBars, Math.ceil(pickUpPulses / barPulses));
  return bars * barPulses - pickUpPulses;
};

export const start: CueRule<Start> = {
  family: 'move',
  while: ['waiting', 'ended'],
  boundary: () => 'atOnce',
  refuseAtCall: (cue, course) =>
    course.road.legs.length > 0
      ? refuseTarget(course, startTarget(cue, course.road))
      : refusal('emptyRoad', 'There is no bar to play: write one first.'),
  atOnce: (course, cue, atMs) => {
    const top = find(course, startTarget(cue, course.road)) as Spot;
    const { pickUp } = top.leg;
    const played = pickUp && top.barIndex === 0 ? pickUp : undefined;
    const spot = played ? { ...top, barIndex: -1 } : top;
    const barPulses = played?.content.music.metre.pulses ?? barsOf(top)[top.barIndex]?.pulses ?? 4;
    const pulses = countPulses(course.road.countBars, barPulses, played?.pulses ?? 0);
    const zero = course.count;
    course.state = 'rolling';
    course.spot = spot;
    course.tempo = { fromCount: zero, fromMs: atMs + LEAD_MS, bpm: course.startBpm };
    course.span = {
      kind: 'count',
      zero,
      end: zero + pulses,
      barPulses,
      place: placeOf(spot),
      nextBar: course.bars,
    };
    writePiece(course, atMs);
  },
  tell: (cue, { course }) => {
    const { leg, barIndex } = startTarget(cue, course.road);
    const first = course.road.legs.find(({ id }) => id === leg);
    return { name: 'Start', detail: first ? placeWords(first, barIndex, undefined) : '' };
  },
};

export const goTo: CueRule<GoTo> = {
  family: 'move',
  while: ['rolling'],
  boundary: () => 'phrase',
  turn: 'place',
  refuseAtCall: (cue) => (isPass(cue.pass) ? null : NO_PASS),
  tell: (cue, { last, next, course }) => {
    const leg = next?.leg.id === cue.leg ? next.leg : course.road.legs.find(({ id }) => id === cue.leg);
    return { name: 'Go to', detail: leg ? placeWords(leg, cue.barIndex, last?.leg.id) : '' };
  },
};

/** Where a go to leads when it lands; a refusal where there is no such place. */
export const goToTarget = (course: Course, cue: GoTo): Spot | Refusal =>
  refuseTarget(course, cue) ?? find(course, cue);

export const here: CueRule<Here> = {
  family: 'move',
  while: ['waiting', 'rolling'],
  boundary: () => 'atOnce',
  refuseAtCall: (cue, course, atMs) => {
    const found = find(course, cue);
    if (isRefusal(found)) return found;
    const { pressedAtMs = atMs } = cue;
    return Math.abs(atMs - pressedAtMs) <= FARTHEST_PRESS_MS
      ? null
      : refusal('pressTooFar', 'That was too long ago: press again.');
  },
  atOnce: (course, cue, atMs, id) => {
    const spot = find(course, cue) as Spot;
    const tempo: Tempo = course.tempo ?? { fromCount: course.count, fromMs: atMs, bpm: course.startBpm };
    const count = Math.max(course.count, countAt(tempo, atMs));
    const bar = barsOf(spot)[spot.barIndex] as Parameters<typeof writtenTempo>[1];
    const bpm = writtenTempo(spot, bar, Number.NEGATIVE_INFINITY, 0)?.bpm ?? bpmAt(tempo, atMs);
    // A press in the future is a clock that is a little ahead: it counts as now.
    const sinceMs = Math.max(0, atMs - (cue.pressedAtMs ?? atMs));
    // In the lead before a count-in nothing moves yet: the tempo begins with the bar.
    course.tempo = atMs >= tempo.fromMs ? tempo : { fromCount: count, fromMs: atMs, bpm };
    enterBar(course, spot, { count, ms: atMs }, [id], { fromPulse: (sinceMs * bpm) / 60_000 });
  },
  tell: (cue, { next }) => ({
    name: 'Here',
    detail: next ? placeWords(next.leg, cue.barIndex, undefined) : '',
  }),
};
