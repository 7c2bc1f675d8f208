import type { RankedSpot } from '../../common/form/lost-spots/lost-spots.ts';
import { spotToSay } from '../../common/stage/spot-to-say.ts';
import type { StandSource } from './stand-source.ts';

/** The lost spot to say at an instant; null where there is none, and while the band does not play. */
export const spotSaid = (
  source: Pick<StandSource, 'barsAround'>,
  ofLeg: ReadonlyMap<string, readonly RankedSpot[]>,
  atMs: number,
): RankedSpot | null => {
  const { bars, now } = source.barsAround(atMs, 0, 0);
  const here = bars[now];
  const spots = here && ofLeg.get(here.place.leg);
  if (!here || !spots || spots.length === 0) return null;
  // A spot may lie in the next pass.
  const { bars: coming, now: first } = source.barsAround(atMs, 0, 2 * here.passBars);
  return spotToSay(spots, coming.slice(first));
};
