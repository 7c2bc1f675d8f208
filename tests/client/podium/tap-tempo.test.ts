import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addTap, type Taps, tappedBpm } from '../../../client/podium/tap-tempo.ts';

const tapAll = (times: readonly number[]): Taps => times.reduce<Taps>(addTap, []);

describe('tapping a tempo', () => {
  it('says nothing before the fourth tap', () => {
    expect(tappedBpm(tapAll([0, 500, 1000]))).toBeNull();
    expect(tappedBpm(tapAll([0, 500, 1000, 1500]))).toBe(120);
  });

  it('finds any steady tempo from 30 to 300 bpm', () => {
    fc.assert(
      fc.property(fc.integer({ min: 31, max: 300 }), fc.integer({ min: 4, max: 12 }), (bpm, n) => {
        const times = Array.from({ length: n }, (_, k) => 10_000 + (k * 60_000) / bpm);
        expect(tappedBpm(tapAll(times))).toBe(bpm);
      }),
    );
  });

  it('takes a bouncing finger for one tap', () => {
    expect(tappedBpm(tapAll([0, 30, 500, 540, 1000, 1500, 1519]))).toBe(120);
  });

  it('begins anew after a pause', () => {
    expect(tapAll([0, 500, 1000, 5000])).toEqual([5000]);
  });

  it('is not thrown off by one late tap as the mean of the first and the last is', () => {
    const bpm = tappedBpm(tapAll([0, 500, 1000, 1500, 2000, 2540]));
    expect(bpm).toBeGreaterThanOrEqual(118);
    expect(bpm).toBeLessThanOrEqual(120);
  });
});
