import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CLICK_EVERY_MS, lateness, TAPS_WANTED } from '../../../common/rehearsal/lateness.ts';

const FIRST_CLICK_MS = 5_000;

/** A tap for each click, each so much beside it. */
const tapsBeside = (besideMs: readonly number[]): number[] =>
  besideMs.map((beside, click) => FIRST_CLICK_MS + click * CLICK_EVERY_MS + beside);

describe('how late a sound is heard, by taps', () => {
  it('waits for enough taps', () => {
    expect(lateness([], FIRST_CLICK_MS)).toEqual({ kind: 'more', left: TAPS_WANTED });
    const one = tapsBeside(Array.from({ length: TAPS_WANTED - 1 }, () => 40));
    expect(lateness(one, FIRST_CLICK_MS)).toEqual({ kind: 'more', left: 1 });
  });

  it('is found to within the unevenness of the hand, from early to three quarters of a click', () => {
    const hand = fc.array(fc.double({ min: -25, max: 25, noNaN: true }), {
      minLength: TAPS_WANTED,
      maxLength: 40,
    });
    fc.assert(
      fc.property(fc.integer({ min: -150, max: 500 }), hand, (laterMs, unevenMs) => {
        const found = lateness(tapsBeside(unevenMs.map((one) => laterMs + one)), FIRST_CLICK_MS);
        expect(found.kind).toBe('late');
        if (found.kind !== 'more') expect(Math.abs(found.laterMs - laterMs)).toBeLessThanOrEqual(25);
      }),
    );
  });

  it('is not spoiled by the first taps, a missed click and one bad tap', () => {
    const taps = tapsBeside([-170, 300, 118, 122, 120, 119, 400, 121, 120, 118, 122, 120, 121, 119]);
    taps.splice(5, 1);
    expect(lateness(taps, FIRST_CLICK_MS)).toMatchObject({ kind: 'late', laterMs: 120 });
  });

  it('says when the taps are beside the click all over', () => {
    const taps = tapsBeside([0, 90, 210, 330, 20, 440, 150, 280, -60, 70, 390, 500]);
    expect(lateness(taps, FIRST_CLICK_MS).kind).toBe('uneven');
  });
});
