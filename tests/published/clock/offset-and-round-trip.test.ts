import { describe, expect, it } from 'vitest';
import { addExchange, newEstimate, readEstimate } from '../../../common/clock/estimate.ts';
import { offsetMs, roundTripMs } from '../../../common/clock/exchange.ts';
import { localMs } from '../../../common/units.ts';
import { exchange } from '../../support/exchange.ts';

// Sources: SOURCE.md beside this file.
describe('offset and round trip', () => {
  it('are those of RFC 5905 §8', () => {
    // T1 = 100, T2 = 1130, T3 = 1140, T4 = 160: θ = ½[(1130 − 100) + (1140 − 160)], δ = (160 − 100) − (1140 − 1130).
    const stamps = exchange(100, 1130, 1140, 160);
    expect(offsetMs(stamps)).toBe((1130 - 100 + (1140 - 160)) / 2);
    expect(roundTripMs(stamps)).toBe(160 - 100 - (1140 - 1130));
  });

  it('are those of the textbook exercise: offset 10.0125 s, delay 0.075 s', () => {
    const stamps = exchange(13_430, 23_480, 25_700, 15_725);
    expect(offsetMs(stamps)).toBeCloseTo(10_012.5, 9);
    expect(roundTripMs(stamps)).toBeCloseTo(75, 9);
  });

  it('make an estimate of one exchange: the textbook’s 10.0125 s ± 0.0375 s, and what a clock may drift meanwhile', () => {
    const estimate = addExchange(newEstimate(), exchange(13_430, 23_480, 25_700, 15_725));
    const reading = readEstimate(estimate, localMs(15_725));
    const driftMs = 300e-6 * (15_725 - 13_430);
    expect(reading?.sharedMs).toBeGreaterThan(15_725 + 10_012.5 - driftMs);
    expect(reading?.sharedMs).toBeLessThan(15_725 + 10_012.5 + driftMs);
    expect(reading?.errorMs).toBeGreaterThanOrEqual(37.5);
    expect(reading?.errorMs).toBeLessThan(37.5 + driftMs);
  });
});
