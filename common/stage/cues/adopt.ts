import type { Road } from '../../form/road.ts';
import type { Course } from '../course.ts';
import type { Cue } from '../cue.ts';
import { type CueRule, refusal } from '../cue-rule.ts';
import { nextStanding } from '../next-standing.ts';
import { soundRoad } from '../sound-road.ts';
import { onNewLeg, type Spot } from '../spot.ts';

type Adopt = Extract<Cue, { kind: 'adopt' }>;

const takeRoad = (course: Course, road: Road, fromMs: number): void => {
  course.road = road;
  course.log.roads.push({ fromMs, road });
};

/** Where a spot at the end of a pass finds itself when another road takes over. */
const onRoad = (spot: Spot, old: Road, road: Road): Spot => {
  const index = road.legs.findIndex((leg) => leg.id === spot.leg.id);
  const next = index >= 0 ? index + 1 : nextStanding(old.legs.slice(spot.next), road);
  if (spot.leg.tag) return { ...spot, next };
  const leg = road.legs[index];
  return leg ? onNewLeg(spot, leg, next) : { ...spot, next, limit: spot.pass };
};

export const adopt: CueRule<Adopt> = {
  family: 'move',
  while: ['waiting', 'rolling', 'ended'],
  boundary: () => 'pass',
  turn: 'place',
  refuseAtCall: ({ road }) =>
    Array.isArray(road?.legs) ? null : refusal('noRoad', 'The new arrangement can not be read.'),
  atOnce: (course, cue, atMs) => {
    const road = soundRoad(cue.road);
    takeRoad(course, road, atMs);
    if (!course.startBpmCalled) course.startBpm = road.tempoBpm;
  },
  land: (course, cue, { ms }) => {
    const road = soundRoad(cue.road);
    course.spot = onRoad(course.spot as Spot, course.road, road);
    takeRoad(course, road, ms);
    if (!course.startBpmCalled) course.startBpm = road.tempoBpm;
    return null;
  },
  tell: (_, { next }) => ({ name: 'New arrangement', detail: next ? next.leg.name : 'the end' }),
};
