import { describe, expect, it } from 'vitest';
import { landingWords } from '../../../client/podium/landing-words.ts';
import { barsAround } from '../../../common/stage/upcoming.ts';
import { play } from '../../common/stage/support-read.ts';
import { bars, leg, road } from '../../common/stage/support-road.ts';

const ASKED = 20;

/** A, 12 bars in phrases of four, twice; then B, four bars. A bar every 2 s from 600 on. */
const tune = road([leg('A', 2, bars('a', 12)), leg('B', 1, bars('b', 4))], { countBars: 0 });

const wordsAt = (performance: ReturnType<typeof play>, tMs: number) => {
  const { bars: around, now } = barsAround(performance, tMs, 0, ASKED);
  return landingWords(around, now, ASKED);
};

describe('where the next phrase and the next chorus begin', () => {
  it('is told from the bar being played', () => {
    const performance = play(tune);
    expect(wordsAt(performance, 700)).toEqual({ phrase: 'bar 5, in 4 bars', chorus: 'top, in 12 bars' });
    expect(wordsAt(performance, 600 + 21 * 2000 + 100)).toEqual({
      phrase: 'B, in 3 bars',
      chorus: 'B, in 3 bars',
    });
    expect(wordsAt(performance, 600 + 27 * 2000 + 100).chorus).toBe('the end, next bar');
  });

  it('is not told of a chorus that nobody sees the end of, as in a loop', () => {
    const performance = play(tune, [1000, { kind: 'loop', leg: 'A', from: 4, to: 5 }]);
    expect(wordsAt(performance, 600 + 6 * 2000 + 100).chorus).toBe('');
  });
});
