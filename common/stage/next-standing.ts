import type { Leg, Road } from '../form/road.ts';

const isSameBars = (a: Leg, b: Leg): boolean =>
  a.bars.length === b.bars.length && a.bars.every(({ id }, i) => id === b.bars[i]?.id);

/** A tag is one with its bars: where it would repeat others, it has fallen away. */
const stands = (leg: Leg, now: Leg): boolean => leg.id === now.id && (!leg.tag || isSameBars(leg, now));

/**
 * Index in the new road of the first of these legs that still stands; its length where none does.
 * @param legs of the old road, those that were still to come
 */
export const nextStanding = (legs: readonly Leg[], road: Road): number => {
  for (const leg of legs) {
    const index = road.legs.findIndex((now) => stands(leg, now));
    if (index >= 0) return index;
  }
  return road.legs.length;
};
