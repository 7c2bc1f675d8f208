import { describe, expect, it } from 'vitest';
import { follow } from '../../../client/stand/follower.ts';
import { performanceSource } from '../../../client/stand/performance-source.ts';
import { spotAt, spotLines } from '../../../client/stand/spot-at.ts';
import { play } from '../../common/stage/support-read.ts';
import { bars, leg, road } from '../../common/stage/support-road.ts';

const TABLET = 4;
const PHONE = 2;

/** A leg of sixteen bars in lines of four, of which the first bars are looped from the start. */
const looped = (to: number) => {
  const written = bars('a', 16).map((bar, at) => ({
    ...bar,
    content: { ...bar.content, lineEnd: at % 4 === 3 },
  }));
  const performance = play(road([leg('A', 'open', written)]), [100, { kind: 'loop', leg: 'A', from: 0, to }]);
  return follow(performanceSource(performance), () => 20_000);
};

const isLarge = (to: number, maxBars: number): boolean => spotAt(looped(to), 20_000, maxBars) !== null;

describe('a spot that is rehearsed', () => {
  it('stands large where its lines, as they are folded, are four at most; a longer one rolls', () => {
    expect(isLarge(15, TABLET)).toBe(true);
    expect(isLarge(7, PHONE)).toBe(true);
    expect(isLarge(8, PHONE)).toBe(false);
    expect(isLarge(15, PHONE)).toBe(false);
  });

  it('is folded as the writer wrote it', () => {
    const [only] = [looped(7)].map((follower) => spotAt(follower, 20_000, TABLET)?.bar.leg);
    const lines = only === undefined ? [] : spotLines(only, 2, 7, PHONE);
    expect(lines.map((line) => line.map(({ place }) => place.barIndex))).toEqual([
      [2, 3],
      [4, 5],
      [6, 7],
    ]);
  });
});
