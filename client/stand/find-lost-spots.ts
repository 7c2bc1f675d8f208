import type { Chart } from '../../common/chart/chart.ts';
import { type LostSpotOptions, lostSpots, type RankedSpot } from '../../common/form/lost-spots/lost-spots.ts';
import { markedIds } from '../../common/form/lost-spots/marked-bars.ts';
import type { Road } from '../../common/form/road.ts';
import { unroll } from '../../common/form/unroll.ts';
import { readKey } from '../../common/theory/key.ts';
import { CONCERT, readingFor } from '../../common/theory/transpose.ts';

/** The lost spots of a tune as a stand shows them. */
export interface FoundSpots {
  /** Of each leg, by its id, the likeliest first. */
  readonly ofLeg: ReadonlyMap<string, readonly RankedSpot[]>;
  /** Written bars that are underlined. */
  readonly ids: ReadonlySet<string>;
}

/**
 * Finds the lost spots of the road that is played, or of a chart that is only read.
 * @param semitones by which the reader reads and the band plays higher than written
 */
export const findLostSpots = (
  tune: { readonly road: Road } | { readonly chart: Chart },
  semitones: number,
  options: LostSpotOptions,
): FoundSpots => {
  const road = 'road' in tune ? tune.road : unroll(tune.chart).road;
  const reading = semitones === 0 ? CONCERT : readingFor(readKey(road.key), semitones);
  const found = lostSpots(road, { ...options, reading });
  return { ofLeg: new Map(found.map(({ leg, spots }) => [leg, spots])), ids: markedIds(road, found) };
};
