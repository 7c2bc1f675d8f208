import type { Road } from '../road.ts';
import type { LostKind, LostSpot } from './lost-spot.ts';
import type { LegSpots } from './lost-spots.ts';

/** These are bars that one counts through; of the others one bar throws people. */
const WHOLE: readonly LostKind[] = ['seam', 'break', 'metre', 'added'];

/** A pass of a leg: its number from 1, and how many there are as known now. */
export interface PassOf {
  readonly bars: readonly { readonly id: string }[];
  readonly pass: number;
  readonly passes: number | 'open' | 'vamp';
}

const isInPass = ({ pass }: LostSpot, of: PassOf): boolean =>
  pass === undefined || pass === of.pass || (pass === 'last' && of.pass === of.passes);

/**
 * The bars of a pass, from 0, that are underlined for its spots: all of a seam, a break, another metre and of what the
 * band added; of any other spot the bar in which it throws people. The part of a seam that is another leg's is left out.
 * @example markedBars([seam], pass) // Set { 15, 0, 1, 2, 3 }: one chord from bar 16 to bar 4
 */
export const markedBars = (spots: readonly LostSpot[], of: PassOf): ReadonlySet<number> => {
  const { length } = of.bars;
  const marked = spots
    .filter((spot) => isInPass(spot, of))
    .flatMap((spot) => {
      const { kind, bars, fromBar, atBar } = spot;
      // A last pass may have other bars.
      if (of.bars[fromBar]?.id !== bars[0]) return [];
      if (!WHOLE.includes(kind)) return [Math.min(atBar, length - 1)];
      const here = of.passes === 1 ? bars.slice(0, length - fromBar) : bars;
      const at = here.map((_, i) => (fromBar + i) % length);
      return at.filter((bar, i) => of.bars[bar]?.id === bars[i]);
    });
  return new Set(marked);
};

/** Ids of the written bars that are underlined in any leg: for the chart as it is written. */
export const markedIds = (road: Road, found: readonly LegSpots[]): ReadonlySet<string> => {
  const ids = new Set<string>();
  for (const { id, bars, passes } of road.legs) {
    const spots = found.find(({ leg }) => leg === id)?.spots ?? [];
    // A break of one pass is written in its bar all the same.
    const always = spots.map(({ pass: _, ...spot }) => spot);
    for (const at of markedBars(always, { bars, pass: 1, passes })) {
      const bar = bars[at];
      if (bar) ids.add(bar.id);
    }
  }
  return ids;
};
