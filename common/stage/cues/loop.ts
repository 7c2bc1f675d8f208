import { barNumbers } from '../../form/bar-numbers.ts';
import { changeManner } from '../change-manner.ts';
import type { Course } from '../course.ts';
import type { Cue } from '../cue.ts';
import { type CueRule, refusal } from '../cue-rule.ts';
import type { Moment } from '../moment.ts';
import { placeWords } from '../place-words.ts';
import type { Refusal } from '../refusal.ts';
import { barsOf, type Spot } from '../spot.ts';
import { bpmAt, FASTEST_BPM, isTempo, SLOWEST_BPM, type Tempo } from '../tempo.ts';
import { findSpot, isRefusal, NO_PLACE } from './find-spot.ts';

type Loop = Extract<Cue, { kind: 'loop' }>;
type LoopOff = Extract<Cue, { kind: 'loopOff' }>;

const refuseSteps = ({ stepBpm, everyRounds = 1, goalBpm }: Loop): Refusal | null => {
  if (stepBpm !== undefined && !(stepBpm > 0 && stepBpm <= FASTEST_BPM)) {
    return refusal('badStep', 'A step changes the tempo by some pulses a minute.');
  }
  if (!Number.isInteger(everyRounds) || everyRounds < 1) {
    return refusal('badRounds', 'A step comes after a whole number of rounds.');
  }
  if (goalBpm !== undefined && !isTempo(goalBpm)) {
    return refusal('badTempo', `A tempo lies between ${SLOWEST_BPM} and ${FASTEST_BPM}.`);
  }
  return goalBpm !== undefined && stepBpm === undefined
    ? refusal('noStep', 'Say in which steps the goal is reached.')
    : null;
};

const isBackwards = ({ from, to }: Loop): boolean => to < from;

/** "loop": the bars are played again and again, until the loop is called off, or until go to or here. */
export const loop: CueRule<Loop> = {
  family: 'move',
  while: ['rolling'],
  boundary: () => 'phrase',
  turn: 'place',
  refuseAtCall: (cue) =>
    isBackwards(cue)
      ? refusal('backwards', 'A loop goes from one bar to a later one of the same pass.')
      : refuseSteps(cue),
  tell: ({ leg: id, from, to, stepBpm, goalBpm }, { last, next, course }) => {
    const leg = next?.leg.id === id ? next.leg : course.road.legs.find((one) => one.id === id);
    if (!leg) return { name: 'Loop', detail: '' };
    const bars = barNumbers(from + 1, to + 1);
    const where = leg.id === last?.leg.id ? bars : `${leg.name}, ${bars}`;
    return { name: 'Loop', detail: stepBpm && goalBpm ? `${where}, to ${goalBpm}` : where };
  },
};

/** Where a loop begins when it lands; a refusal where it has no such bars. */
export const loopTarget = (course: Course, { leg, from, to }: Loop): Spot | Refusal => {
  const first = findSpot(course, { leg, barIndex: from });
  if (isRefusal(first)) return first;
  return Number.isInteger(to) && to < barsOf(first).length ? first : NO_PLACE;
};

/** The first round begins. */
export const beginLoop = (course: Course, cue: Loop, { ms }: Moment): void => {
  const { leg, from, to, countIn = false, stepBpm = 0, everyRounds = 1 } = cue;
  const bpm = bpmAt(course.tempo as Tempo, ms);
  const { goalBpm = FASTEST_BPM } = cue;
  const round = 1;
  changeManner(course, { loop: { leg, from, to, round, countIn, stepBpm, everyRounds, goalBpm, bpm } }, ms);
};

/** "loop off": after this round the band goes on. */
export const loopOff: CueRule<LoopOff> = {
  family: 'move',
  while: ['rolling'],
  boundary: () => 'round',
  turn: 'place',
  refuseAtNotice: (_, { manner }) => (manner.loop ? null : refusal('noLoop', 'Nothing is being looped.')),
  land: (course, _, { ms }) => {
    changeManner(course, { loop: null }, ms);
    return null;
  },
  tell: (_, { last, next }) => ({
    name: 'Loop off',
    detail: next ? placeWords(next.leg, next.place.barIndex, last?.leg.id) : 'the end',
  }),
};
