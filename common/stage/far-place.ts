import type { Leg } from '../form/road.ts';
import type { Course } from './course.ts';
import type { Cue } from './cue.ts';
import type { Place } from './place.ts';
import { barsOf } from './spot.ts';

const lastBarOf = (leg: Leg | undefined): number => (leg?.lastBars ?? leg?.bars ?? []).length - 1;

/**
 * Where a cue lands of which nobody can say when: the bar that it names, the end of the pass where a loop goes
 * round before it, else the end of the road.
 */
export const farPlace = ({ road: { legs }, spot, manner }: Course, cue: Cue): Place => {
  const named = cue.kind === 'hold' ? legs.find(({ id }) => id === cue.leg) : undefined;
  if (cue.kind === 'hold' && named) {
    return { leg: named.id, pass: 1, barIndex: cue.barIndex ?? lastBarOf(named), pulse: 0 };
  }
  if (manner.loop && spot && cue.kind !== 'tag') {
    return { leg: spot.leg.id, pass: spot.pass, barIndex: barsOf(spot).length - 1, pulse: 0 };
  }
  const last = legs.at(-1);
  return { leg: last?.id ?? '', pass: 1, barIndex: lastBarOf(last), pulse: 0 };
};
