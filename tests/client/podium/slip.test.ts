import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { slipAt, slipPulses } from '../../../client/podium/slip.ts';
import { locate } from '../../../common/stage/locate.ts';
import { perform } from '../../../common/stage/perform.ts';
import { play } from '../../common/stage/support-read.ts';
import { bars, leg, road, START, take, twelveBars } from '../../common/stage/support-road.ts';

// 4/4 at 120: the Head begins at 4,600, the solos' pass k at 28,600 + (k − 1) · 24,000.
const playing = play(twelveBars());

describe('a slip', () => {
  it('is a beat, or half of a bar that has a half', () => {
    expect(slipPulses('beat', 4)).toBe(1);
    expect(slipPulses('half bar', 4)).toBe(2);
    expect(slipPulses('half bar', 6)).toBe(3);
    expect(slipPulses('half bar', 5)).toBe(1);
  });

  it('a beat late: everyone goes back by a beat, within the bar', () => {
    expect(slipAt(playing, -1, 'beat', 29_600)).toEqual({
      kind: 'here',
      leg: 'Solos',
      pass: 1,
      barIndex: 0,
      pulse: 1,
      pressedAtMs: 29_600,
    });
  });

  it('goes back over the bar line, over the top and into the leg before', () => {
    expect(slipAt(playing, -1, 'beat', 53_000)).toMatchObject({ leg: 'Solos', pass: 1, barIndex: 11 });
    expect(slipAt(playing, -1, 'half bar', 28_700)).toMatchObject({ leg: 'Head', pass: 1, barIndex: 11 });
    expect(slipAt(playing, -1, 'half bar', 28_700)?.pulse).toBeCloseTo(2.2, 6);
  });

  it('a beat early: everyone goes on, over the top too', () => {
    expect(slipAt(playing, 1, 'beat', 52_300)).toMatchObject({ leg: 'Solos', pass: 2, barIndex: 0 });
    expect(slipAt(playing, 1, 'beat', 52_300)?.pulse).toBeCloseTo(0.4, 6);
  });

  it('there is none before the first bar, nor where the band does not play', () => {
    expect(slipAt(playing, -1, 'beat', 4_700)).toBeNull();
    expect(slipAt(playing, 1, 'beat', 3_000)).toBeNull();
    expect(slipAt(play(twelveBars(), [10_000, { kind: 'stop' }]), 1, 'beat', 20_000)).toBeNull();
  });

  it('puts everyone where the band is: a beat on is where the board would have been a beat later', () => {
    const a = bars('a', 10, { 3: { pulses: 3 }, 6: { pulses: 5 } });
    const form = road([leg('Head', 2, a), leg('Solos', 'open', a)]);
    const before = perform(take(form, [[0, START]]));
    fc.assert(
      fc.property(
        fc.integer({ min: 6_000, max: 120_000 }),
        fc.constantFrom(1 as const, -1 as const),
        fc.constantFrom('beat' as const, 'half bar' as const),
        (pressedAtMs, sign, length) => {
          const cue = slipAt(before, sign, length, pressedAtMs);
          const at = locate(before, pressedAtMs);
          if (cue === null || at.state !== 'playing') throw new Error('the band plays');
          const pulses = slipPulses(length, at.place.barIndex === 3 ? 3 : at.place.barIndex === 6 ? 5 : 4);
          const after = perform(
            take(form, [
              [0, START],
              [pressedAtMs + 80, cue],
            ]),
          );
          const slipped = locate(after, pressedAtMs + 80);
          const meant = locate(before, pressedAtMs + 80 + sign * pulses * 500);
          if (slipped.state !== 'playing' || meant.state !== 'playing') throw new Error('the band plays');
          expect(slipped.place).toMatchObject({
            ...meant.place,
            pulse: expect.closeTo(meant.place.pulse, 6),
          });
        },
      ),
      { numRuns: 200, seed: 11 },
    );
  });
});
