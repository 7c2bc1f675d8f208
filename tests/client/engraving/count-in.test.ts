import { describe, expect, it } from 'vitest';
import { countAt, countedBar } from '../../../client/engraving/count-in.ts';
import { countdown } from '../../../client/engraving/flag.tsx';

// common practice, no source
describe('the count-in', () => {
  it('counts two bars of four "one – two – | one two three four"', () => {
    const figures = Array.from({ length: 8 }, (_, gone) => countAt(8 - gone - 0.5, 8, 4).figure);
    expect(figures).toEqual(['1', '1', '2', '2', '1', '2', '3', '4']);
  });

  it('counts in threes, fives and sevens on the first beat, then in full', () => {
    expect(countedBar(3, false)).toEqual(['1', '', '']);
    expect(countedBar(5, false)).toEqual(['1', '', '', '', '']);
    expect(countedBar(7, true)).toEqual(['1', '2', '3', '4', '5', '6', '7']);
  });

  it('counts 6/8 in two', () => {
    expect(countedBar(2, false)).toEqual(['1', '']);
    expect(countedBar(2, true)).toEqual(['1', '2']);
  });

  it('counts one bar in full, and of three bars the last', () => {
    expect(countAt(3.5, 4, 4)).toMatchObject({ figure: '1', barsToCome: 1 });
    expect(countAt(2.5, 4, 4).figure).toBe('2');
    expect(countAt(11.5, 12, 4)).toMatchObject({ figure: '1', barsToCome: 3 });
    expect(countAt(0.5, 12, 4)).toMatchObject({ figure: '4', barsToCome: 1 });
  });

  it('leaves the beats of a pick-up to the pick-up', () => {
    // Two bars of four less one beat: seven pulses; the last one counted is three.
    expect(countAt(0.2, 7, 4)).toMatchObject({ figure: '3', barsToCome: 1, pulse: 2 });
  });

  it('shows the first figure before the first count', () => {
    expect(countAt(9.2, 8, 4)).toMatchObject({ figure: '1', pulse: 0 });
  });
});

describe('the countdown of a flag', () => {
  it('goes in bars, in the last bar in beats', () => {
    expect(countdown({ barsToGo: 11, beatsToGo: 44 })).toBe('in 11 bars');
    expect(countdown({ barsToGo: 2, beatsToGo: 0 })).toBe('in 2 bars');
    expect(countdown({ barsToGo: 1, beatsToGo: 3 })).toBe('in 3 beats');
    expect(countdown({ barsToGo: 1, beatsToGo: 1 })).toBe('in 1 beat');
    expect(countdown({ barsToGo: 0, beatsToGo: 0 })).toBe('now');
  });
});
