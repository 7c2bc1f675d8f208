import type { Road } from '../../../common/form/road.ts';
import { locate } from '../../../common/stage/locate.ts';
import { type Performance, perform } from '../../../common/stage/perform.ts';
import type { ComingBar } from '../../../common/stage/place.ts';
import { barsAround } from '../../../common/stage/upcoming.ts';
import { type Calls, START, take } from './support-road.ts';

/** A take on this road that is counted in at 0, with what is called then. */
export const play = (road: Road, ...calls: Calls): Performance => perform(take(road, [[0, START], ...calls]));

const tell = ({ place }: ComingBar): string => `${place.leg} ${place.pass}.${place.barIndex + 1}`;

/** Up to `most` bars from the first one on, as "leg pass.bar"; 'end' where the take ends. */
export const told = (performance: Performance, most = 40): string[] => {
  const bars = allBars(performance, most);
  const ends = locate(performance, 1e7).state === 'ended' && bars.length < most;
  return ends ? [...bars.map(tell), 'end'] : bars.map(tell);
};

export const allBars = (performance: Performance, most = 40): readonly ComingBar[] => {
  const firstMs = performance.take.cues[0]?.calledAtMs ?? 0;
  const { bars } = barsAround(performance, firstMs, 0, most);
  return bars.slice(0, most);
};

/** "leg pass.bar+pulse", or the state where the band does not play. */
export const at = (performance: Performance, tMs: number): string => {
  const where = locate(performance, tMs);
  if (where.state !== 'playing') return where.state;
  const { leg, pass, barIndex, pulse } = where.place;
  return `${leg} ${pass}.${barIndex + 1}+${Math.round(pulse * 1000) / 1000}`;
};

/** The bars up to the one that is on at that time, as they were played. */
export const playedBars = (performance: Performance, untilMs: number): readonly ComingBar[] => {
  const { bars, now } = barsAround(performance, untilMs, 10_000, 0);
  return now >= 0 ? bars.slice(0, now + 1) : bars;
};

/** The next round of a loop goes back to its first bar. */
export const isNextRound = (a: ComingBar, b: ComingBar): boolean =>
  a.loop !== undefined &&
  b.loop?.round === a.loop.round + 1 &&
  a.place.barIndex === a.loop.to &&
  b.place.barIndex === b.loop.from;

/** How the bars sound: '.' played, 'H' hit on one and then silent, 'o' out. */
export const outs = (performance: Performance, most: number): string =>
  allBars(performance, most)
    .map(({ out }) => (out === undefined ? '.' : out === 'hit' ? 'H' : 'o'))
    .join('');
