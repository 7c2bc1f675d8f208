import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { backoffMs } from '../../../client/net/backoff.ts';

describe('waiting before trying again', () => {
  it('doubles with each failure, up to four seconds', () => {
    expect([1, 2, 3, 4, 5, 6, 99].map((failures) => backoffMs(failures, 0.5))).toEqual([
      250, 500, 1000, 2000, 4000, 4000, 4000,
    ]);
  });

  it('is spread by half either way', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 50 }),
        fc.double({ min: 0, max: 0.999, noNaN: true }),
        (n, random) => {
          const middle = backoffMs(n, 0.5);
          expect(Math.abs(backoffMs(n, random) - middle)).toBeLessThanOrEqual(middle / 2);
        },
      ),
    );
  });
});
