import type { Road } from '../../form/road.ts';
import { beginCount } from '../begin-count.ts';
import { countInFor } from '../count-in-for.ts';
import type { Course } from '../course.ts';
import type { Cue } from '../cue.ts';
import { type CueRule, refusal } from '../cue-rule.ts';
import { placeWords } from '../place-words.ts';
import type { Refusal } from '../refusal.ts';
import { isPass, type Spot } from '../spot.ts';
import { findSpot, NO_PASS, refuseTarget } from './find-spot.ts';

type Start = Extract<Cue, { kind: 'start' }>;
type GoTo = Extract<Cue, { kind: 'goTo' }>;

/** From the call of a start to the first pulse of the count-in. */
const LEAD_MS = 600;

const startTarget = ({ leg, barIndex, pass }: Start, road: Road) => ({
  leg: leg ?? road.legs[0]?.id ?? '',
  barIndex: barIndex === undefined || barIndex === -1 ? 0 : barIndex,
  ...(pass === undefined ? {} : { pass }),
});

export const EMPTY_ROAD = refusal('emptyRoad', 'There is no bar to play: write one first.');

export const start: CueRule<Start> = {
  family: 'move',
  while: ['waiting', 'ended'],
  boundary: () => 'atOnce',
  refuseAtCall: (cue, course) =>
    course.road.legs.length > 0 ? refuseTarget(course, startTarget(cue, course.road)) : EMPTY_ROAD,
  atOnce: (course, cue, atMs) => {
    const top = findSpot(course, startTarget(cue, course.road)) as Spot;
    const countIn = countInFor(top, course.road.countBars);
    const at = { count: course.count, ms: atMs };
    course.tempo = { fromCount: at.count, fromMs: atMs + LEAD_MS, bpm: course.startBpm };
    beginCount(course, countIn.spot, at, countIn);
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
  refuseTarget(course, cue) ?? findSpot(course, cue);
