import type { RoadBar } from '../../../common/form/road.ts';

/** Two bars stand side by side on a phone, and each may have two chords; more have no room there. */
export const PHONE_PX = 600;
const MOST_ON_PHONE = 2;
/** Bars with more chords than nine in ten have are not many enough to make all lines short. */
const MOST = 0.9;

const chordsIn = ({ content }: RoadBar): number =>
  content.music.cells.filter(({ kind }) => kind === 'chord').length;

/** How many chords are struck in a bar, but for a few bars that have more; 1 where there are none. */
export const chordsInMostBars = (bars: readonly RoadBar[]): number => {
  const counts = bars.map(chordsIn).sort((one, other) => one - other);
  return Math.max(1, counts[Math.ceil(counts.length * MOST) - 1] ?? 1);
};

/** Whether what stands under the chords of this bar could not be read beside another bar, in this width. */
export const needsLine = (bar: RoadBar, widthPx: number): boolean =>
  widthPx < PHONE_PX && chordsIn(bar) > MOST_ON_PHONE;
