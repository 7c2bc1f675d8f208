import type { Road } from '../form/road.ts';
import { legAt, roadAt } from './in-force.ts';
import { nextStanding } from './next-standing.ts';
import type { Performance } from './perform.ts';
import { soundRoad } from './sound-road.ts';

/** A leg that is being played and that another arrangement does not have. */
export interface LostLeg {
  readonly name: string;
  /** The leg with which the band would go on; null where the tune would end. */
  readonly next: string | null;
}

/**
 * The leg being played at `tMs`, where this road would take it away at the top: `{ name: 'Solos', next: 'Head out' }`.
 * A tag is played to its end whatever is adopted. null where nothing is lost.
 */
export const lostLeg = (performance: Performance, road: Road, tMs: number): LostLeg | null => {
  const leg = legAt(performance, tMs);
  const { legs } = roadAt(performance, tMs);
  const index = legs.findIndex(({ id }) => id === leg?.id);
  const sound = soundRoad(road);
  if (!leg || leg.tag || index < 0 || sound.legs.some(({ id }) => id === leg.id)) return null;
  const following = sound.legs[nextStanding(legs.slice(index + 1), sound)];
  return { name: leg.name, next: following?.name ?? null };
};
