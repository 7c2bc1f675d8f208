import type { Chart } from '../../common/chart/chart.ts';
import type { LostSpotsSaid } from '../../common/document/lost-spots-said.ts';
import { type AddedSpot, lostSpots, type RankedSpot } from '../../common/form/lost-spots/lost-spots.ts';
import type { Road } from '../../common/form/road.ts';
import type { NoteNames } from '../../common/theory/note-name.ts';
import { barAt, barsInOrder, numberOf } from './neighbours.ts';

/** A spot with the legs in which it lies, as it is in the leg where it weighs most. */
export interface ListedSpot {
  readonly spot: RankedSpot;
  /** Names, in the order of the road. */
  readonly legs: readonly string[];
  readonly isDismissed: boolean;
}

export interface LostList {
  /** The likeliest to throw somebody first. */
  readonly spots: readonly ListedSpot[];
  /** Added spots that are nowhere in what is played: their bars are gone, or in no leg. */
  readonly unplayed: readonly AddedSpot[];
}

/** The lost spots of a chart as it is written, each once, and those that were dismissed. */
export const lostList = (
  road: Road,
  { dismissed, added }: LostSpotsSaid,
  names: NoteNames = 'english',
): LostList => {
  const byId = new Map<string, ListedSpot>();
  for (const { leg, spots } of lostSpots(road, { added, names })) {
    const name = road.legs.find(({ id }) => id === leg)?.name ?? '';
    for (const spot of spots) {
      const known = byId.get(spot.id);
      const legs = known?.legs.includes(name) ? known.legs : [...(known?.legs ?? []), name];
      const heavier = known && known.spot.weight >= spot.weight ? known.spot : spot;
      byId.set(spot.id, { spot: heavier, legs, isDismissed: dismissed.includes(spot.id) });
    }
  }
  return {
    spots: [...byId.values()].sort((a, b) => b.spot.weight - a.spot.weight),
    unplayed: added.filter(({ id }) => !byId.has(id)),
  };
};

/**
 * Bars as they are numbered on paper; over the top the last number is the smaller one.
 * @example barNumbers(chart, seam.bars) // 'bars 16–4'
 */
export const barNumbers = (chart: Chart, bars: readonly string[]): string => {
  const [first, last] = [numberOf(chart, bars[0] ?? ''), numberOf(chart, bars.at(-1) ?? '')];
  return first === last ? `bar ${first}` : `bars ${first}–${last}`;
};

/** Of these bars the first that stand side by side on paper: those that can be chosen together. */
export const sideBySide = (chart: Chart, bars: readonly string[]): string[] => {
  const all = barsInOrder(chart).map(({ bar }) => bar.id);
  const start = all.indexOf(bars[0] ?? '');
  if (start < 0) return bars.filter((id) => barAt(chart, id) !== null).slice(0, 1);
  const end = bars.findIndex((id, i) => all[start + i] !== id);
  return bars.slice(0, end < 0 ? bars.length : end);
};

/** The words of a spot count from the top of a pass: whether that is another count than the one on paper. */
export const countsOtherwise = (chart: Chart, { bars, fromBar }: RankedSpot): boolean =>
  numberOf(chart, bars[0] ?? '') !== fromBar + 1;
