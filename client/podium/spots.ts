import type { Leg, Road } from '../../common/form/road.ts';
import type { Place } from '../../common/stage/place.ts';
import { legAfter, letters, type Spot } from './letters.ts';

/**
 * The spots that stand ready for a touch. While the band plays: the top and the letters of the leg being played,
 * and the leg that follows. Else: those from which one can count in, and where the last run was stopped.
 * @param stopped where the take was stopped, null where it was not
 */
export const readySpots = (
  road: Road,
  leg: Leg,
  rolling: boolean,
  stopped: Place | null,
): readonly Spot[] => {
  const [top, ...lettered] = letters(leg);
  const first: Spot = { leg: leg.id, barIndex: 0, name: top?.name ?? 'top' };
  if (rolling) {
    const next = legAfter(road, leg.id);
    return [
      first,
      ...lettered,
      ...(next === undefined ? [] : [{ leg: next.id, barIndex: 0, name: next.name }]),
    ];
  }
  const stoppedLeg = road.legs.find(({ id }) => id === stopped?.leg);
  return [
    leg.pickUp === undefined ? first : { ...first, barIndex: -1, name: 'pick-up' },
    ...lettered,
    ...(stopped === null || stoppedLeg === undefined
      ? []
      : [
          {
            leg: stopped.leg,
            barIndex: Math.max(0, stopped.barIndex),
            pass: stopped.pass,
            name: `where we stopped: ${stoppedLeg.name}, bar ${Math.max(0, stopped.barIndex) + 1}`,
          },
        ]),
  ];
};
