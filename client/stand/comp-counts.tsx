import { type Rhythm, readRhythm } from '../../common/band/rhythm.ts';
import { fitsMetre, gridOf, type RhythmGrid } from '../../common/band/rhythm-grid.ts';
import { RHYTHMS, rhythmOf } from '../../common/band/rhythm-library.ts';
import { styleNamed } from '../../common/band/style.ts';
import type { Metre } from '../../common/chart/bar-music.ts';
import type { Road } from '../../common/form/road.ts';
import { instrumentById } from '../../common/theory/instruments.ts';
import { useObservable } from '../state/observable.ts';
import { tabletPractice } from '../storage/tablet-practice.ts';
import './comp-counts.css';

/** The rhythm to comp: the one that the player has chosen, else the likeliest of the feel; null where none fits the metre. */
const rhythmFor = (chosen: string, feel: string, metre: Metre): Rhythm | null => {
  const typed = chosen.trim() === '' ? null : readRhythm(chosen, metre);
  const style = styleNamed(feel);
  const rhythm =
    typed !== null && typed.problems.length === 0
      ? typed.rhythm
      : style && rhythmOf(RHYTHMS[style.comping][0]);
  return rhythm && fitsMetre(rhythm, metre) ? rhythm : null;
};

interface CompCountsProps {
  /** Instrument id. */
  readonly part: string;
  readonly feel: string;
  readonly road: Road;
}

/** Whether a player of this instrument comps. */
const comps = (part: string): boolean => {
  const group = instrumentById(part)?.part;
  return group === 'guitar' || group === 'keys';
};

/** The comping rhythm counted, as whoever comps says it: what is played stands out. */
export const CompCounts = ({ part, feel, road }: CompCountsProps) => {
  const { comping } = useObservable(tabletPractice);
  const metre = road.legs[0]?.bars[0]?.content.music.metre;
  const rhythm = comps(part) && metre ? rhythmFor(comping, feel, metre) : null;
  if (rhythm === null || metre === undefined) return null;
  const grid = gridOf(rhythm, metre);
  return (
    <span className="comp-counts">
      <span className="comp-word">comp</span>
      {grid.bars.map((row, bar) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a bar is its place
        <CountedBar key={bar} grid={grid} row={row} />
      ))}
    </span>
  );
};

const CountedBar = ({ grid, row }: { readonly grid: RhythmGrid; readonly row: readonly boolean[] }) => (
  <span className="comp-bar">
    {grid.columns.map(({ pulse, part }, at) => (
      <span key={`${pulse}${part}`} data-played={row[at] === true ? '' : undefined}>
        {part === '' ? pulse + 1 : part}
      </span>
    ))}
  </span>
);
