import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coast, type Shown, showFrom, slew } from '../../../common/clock/slew.ts';
import { localMs, sharedMs } from '../../../common/units.ts';

const at0 = showFrom(localMs(0), sharedMs(10_000));

/** Shown time after so long if shared time was ahead of it by `behindMs` all the while. */
const shownAfter = (ms: number, behindMs: number, from: Shown = at0) =>
  slew(from, localMs(ms), sharedMs(10_000 + behindMs + ms));

describe('shown time', () => {
  it('goes on as it is when nothing is to be corrected', () => {
    expect(shownAfter(500, 0).sharedMs).toBe(10_500);
  });

  it.each([15, -15])('makes up %s ms at two per cent', (behindMs) => {
    expect(shownAfter(100, behindMs).sharedMs).toBeCloseTo(10_100 + 2 * Math.sign(behindMs), 9);
    expect(shownAfter(1000, behindMs).sharedMs).toBeCloseTo(11_000 + behindMs, 9);
  });

  it.each([200, -200])('makes up %s ms at twenty per cent, the last 20 ms at two', (behindMs) => {
    const sign = Math.sign(behindMs);
    expect(shownAfter(100, behindMs).sharedMs).toBeCloseTo(10_100 + 20 * sign, 9);
    expect(shownAfter(900, behindMs).sharedMs).toBeCloseTo(10_900 + 180 * sign, 9);
    expect(shownAfter(1400, behindMs).sharedMs).toBeCloseTo(11_400 + 190 * sign, 9);
    expect(shownAfter(3000, behindMs).sharedMs).toBeCloseTo(13_000 + behindMs, 9);
  });

  it('steps forward over more than 250 ms, without calling it a re-seek', () => {
    expect(shownAfter(16, 300)).toEqual({ localMs: 16, sharedMs: 10_316, reseekMs: 0 });
  });

  it('holds still where a step would be back', () => {
    expect(shownAfter(100, -400).sharedMs).toBe(10_000);
    expect(shownAfter(150, -400).sharedMs).toBe(10_000);
    expect(shownAfter(250, -400).sharedMs).toBeCloseTo(10_080, 9);
  });

  it.each([2500, -2500])('re-seeks over %s ms and says how far', (behindMs) => {
    const shown = shownAfter(16, behindMs);
    expect(shown.sharedMs).toBe(10_016 + behindMs);
    expect(shown.reseekMs).toBe(behindMs);
    expect(slew(shown, localMs(32), sharedMs(10_032 + behindMs)).reseekMs).toBe(0);
  });

  it('coasts at the pace of the local clock', () => {
    expect(coast(at0, localMs(250)).sharedMs).toBe(10_250);
    expect(coast(at0, localMs(-5)).sharedMs).toBe(10_000);
  });

  it('never runs backwards, nor faster than 20 % unless it steps or re-seeks, whatever it is told', () => {
    const frame = fc.tuple(
      fc.double({ min: -5, max: 200, noNaN: true }),
      fc.double({ min: -3000, max: 3000, noNaN: true }),
    );
    fc.assert(
      fc.property(fc.array(frame, { maxLength: 80 }), (frames) => {
        let shown = at0;
        let now = 0;
        for (const [passedMs, offMs] of frames) {
          now += passedMs;
          const next = slew(shown, localMs(now), sharedMs(10_000 + now + offMs));
          if (next.reseekMs === 0) expect(next.sharedMs).toBeGreaterThanOrEqual(shown.sharedMs);
          else expect(Math.abs(next.reseekMs)).toBeGreaterThan(2000);
          const moved = next.sharedMs - shown.sharedMs;
          const behind = 10_000 + now + offMs - shown.sharedMs - Math.max(0, now - shown.localMs);
          if (next.reseekMs === 0 && behind <= 250) {
            expect(moved).toBeLessThanOrEqual(1.2 * Math.max(0, now - shown.localMs) + 1e-6);
          }
          shown = next;
        }
      }),
      { numRuns: 200, seed: 21 },
    );
  });

  it('does not depend on how often it is asked while the target keeps pace', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -2000, max: 2000, noNaN: true }),
        fc.array(fc.double({ min: 0, max: 300, noNaN: true }), { minLength: 1, maxLength: 30 }),
        (behindMs, gaps) => {
          let now = 0;
          let often = at0;
          for (const gap of gaps) {
            now += gap;
            often = shownAfter(now, behindMs, often);
          }
          expect(often.sharedMs).toBeCloseTo(shownAfter(now, behindMs).sharedMs, 6);
        },
      ),
      { numRuns: 200, seed: 22 },
    );
  });
});
