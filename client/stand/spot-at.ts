import type { Leg, RoadBar } from '../../common/form/road.ts';
import type { ComingBar } from '../../common/stage/place.ts';
import type { Follower } from './follower.ts';
import { foldLine } from './stand-lines.ts';

/** More lines than these, as they are folded here, are not large any more: a longer spot rolls like everything else. */
const MOST_LINES = 4;

interface SpotBar {
  readonly place: { readonly barIndex: number };
  readonly bar: RoadBar;
}

/** The lines of a stretch of a leg, as the writer wrote them, folded where the screen is narrow. */
export const spotLines = (leg: Leg, from: number, to: number, maxBars: number): SpotBar[][] => {
  const lines: SpotBar[][] = [[]];
  leg.bars.slice(from, to + 1).forEach((bar, at) => {
    lines.at(-1)?.push({ place: { barIndex: from + at }, bar });
    if (bar.content.lineEnd) lines.push([]);
  });
  return lines.filter((line) => line.length > 0).flatMap((line) => foldLine(line, maxBars));
};

/** The spot that is rehearsed now, or counted in; null where there is none, and where it is too long to stand large. */
export const spotAt = (
  follower: Follower,
  atMs: number,
  maxBars: number,
): { bar: ComingBar; key: string } | null => {
  const { bars, now } = follower.source.barsAround(atMs, 0, 1);
  const bar = bars[Math.max(0, now)];
  if (bar?.loop === undefined) return null;
  const { from, to } = bar.loop;
  if (spotLines(bar.leg, from, to, maxBars).length > MOST_LINES) return null;
  return { bar, key: `${bar.place.leg} ${from} ${to}` };
};
