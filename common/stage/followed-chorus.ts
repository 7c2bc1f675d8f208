import { isChorus } from '../form/chorus.ts';
import { roadAt } from './in-force.ts';
import type { Performance } from './perform.ts';
import type { Place } from './place.ts';
import { barsAround, upcoming } from './upcoming.ts';

/** Where the band is, if it plays a chorus and another chorus comes next; null in an intro, a vamp, and before a tag. */
export const followedChorus = (performance: Performance, tMs: number): Place | null => {
  const { bars, now } = barsAround(performance, tMs, 0, 0);
  const bar = bars[now];
  if (bar === undefined) return null;
  const { leg, place } = bar;
  const road = roadAt(performance, tMs);
  if (!isChorus(leg, road)) return null;
  const next = upcoming(performance, tMs, leg.bars.length + 1).find(
    (coming) => coming.place.leg !== place.leg || coming.place.pass !== place.pass,
  );
  return next !== undefined && isChorus(next.leg, road) ? place : null;
};
