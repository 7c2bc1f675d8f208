import type { Leg, Road } from '../form/road.ts';

/**
 * Index in the new road of the first of these legs that still stands; its length where none does. A tag repeats the leg
 * before it, and is no place to go on from elsewhere.
 * @param legs of the old road, those that were still to come
 */
export const nextStanding = (legs: readonly Leg[], road: Road): number => {
  for (const { id } of legs) {
    const index = road.legs.findIndex((leg) => leg.id === id && !leg.tag);
    if (index >= 0) return index;
  }
  return road.legs.length;
};
