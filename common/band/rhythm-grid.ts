import type { Metre } from '../chart/bar-music.ts';
import { type Count, placeOfCount, type Rhythm } from './rhythm.ts';

/** A rhythm as boxes to be ticked: a column a count, a row a bar. */
export interface RhythmGrid {
  readonly pulses: number;
  readonly columns: readonly Count[];
  readonly bars: readonly (readonly boolean[])[];
}

const SIMPLE = { pulses: [''], eighths: ['', '&'], sixteenths: ['', 'e', '&', 'a'] } as const;
const COMPOUND = { pulses: [''], eighths: ['', '&', 'a'], sixteenths: ['', '&', 'a'] } as const;

/** How fine a grid is. A dotted quarter has three parts and no finer ones. */
export type Division = keyof typeof SIMPLE;

/** The counts of a bar in order: in 4/4 by eighths 1 & 2 & 3 & 4 &. */
export const countsOf = (metre: Metre, division: Division): Count[] =>
  Array.from({ length: metre.pulses }, (_, pulse) =>
    (metre.compound ? COMPOUND : SIMPLE)[division].map((part): Count => ({ pulse, part })),
  ).flat();

const isSame = (a: Count, b: Count): boolean => a.pulse === b.pulse && a.part === b.part;

/** The coarsest grid that has all counts of the rhythm, at least eighths. */
export const divisionFor = ({ bars }: Rhythm): Division =>
  bars.some((bar) => bar.some(({ part }) => part === 'e' || part === 'a')) ? 'sixteenths' : 'eighths';

/**
 * The rhythm as a grid for bars of the metre.
 * Law: `rhythmOfGrid(gridOf(rhythm, metre, division))` equals `rhythm` where the grid has all its counts.
 */
export const gridOf = (
  rhythm: Rhythm,
  metre: Metre,
  division: Division = divisionFor(rhythm),
): RhythmGrid => {
  const columns = countsOf(metre, division);
  return {
    pulses: rhythm.pulses,
    columns,
    bars: rhythm.bars.map((bar) => columns.map((column) => bar.some((count) => isSame(count, column)))),
  };
};

/** What is ticked, as a rhythm. */
export const rhythmOfGrid = ({ pulses, columns, bars }: RhythmGrid): Rhythm => ({
  pulses,
  bars: bars.map((row) => columns.filter((_, i) => row[i] === true)),
});

/** The grid with one box ticked, or not ticked any more. Twice is as before. */
export const tick = (grid: RhythmGrid, barIndex: number, columnIndex: number): RhythmGrid => ({
  ...grid,
  bars: grid.bars.map((row, bar) =>
    bar === barIndex ? row.map((on, column) => (column === columnIndex ? !on : on)) : row,
  ),
});

/** Every count of the rhythm has a place in bars of the metre. */
export const fitsMetre = ({ bars }: Rhythm, metre: Metre): boolean =>
  bars.every((bar) => bar.every((count) => !Number.isNaN(placeOfCount(count, metre))));
