import type { Chart } from '../../common/chart/chart.ts';
import { type LostSpotOptions, lostSpots, type RankedSpot } from '../../common/form/lost-spots/lost-spots.ts';
import { markedBars, markedIds, type PassOf } from '../../common/form/lost-spots/marked-bars.ts';
import type { Road } from '../../common/form/road.ts';
import { unroll } from '../../common/form/unroll.ts';
import { readKey } from '../../common/theory/key.ts';
import { CONCERT, readingFor } from '../../common/theory/transpose.ts';
import { spotSaid } from './spot-said.ts';
import type { StandSource } from './stand-source.ts';

/** The lost spots of a tune as a stand shows them. What it asks comes along, so that it is not loaded before. */
export interface FoundSpots {
  /** Of each leg, by its id, the likeliest first. */
  readonly ofLeg: ReadonlyMap<string, readonly RankedSpot[]>;
  /** Written bars that are underlined. */
  readonly ids: ReadonlySet<string>;
  /** Bars that are underlined in a pass of a leg, from 0. */
  readonly marked: (leg: string, pass: PassOf) => ReadonlySet<number>;
  /** The spot to say at an instant; null where there is none, and while the band does not play. */
  readonly said: (source: Pick<StandSource, 'barsAround'>, atMs: number) => RankedSpot | null;
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
  const ofLeg = new Map(found.map(({ leg, spots }) => [leg, spots]));
  return {
    ofLeg,
    ids: markedIds(road, found),
    marked: (leg, pass) => markedBars(ofLeg.get(leg) ?? [], pass),
    said: (source, atMs) => spotSaid(source, ofLeg, atMs),
  };
};
