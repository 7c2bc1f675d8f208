import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { goOnFrom, sharedTimeOf } from '../../server/shared-time.ts';

describe('shared time', () => {
  it('begins at the wall clock, so that it reads as a date', () => {
    const mark = goOnFrom(null, 'a', 5_000, 1_700_000_000_000);
    expect(sharedTimeOf(mark, () => 5_250).now()).toBe(1_700_000_000_250);
  });

  it('runs on over a restart of the process, whatever the wall clock did meanwhile', () => {
    const first = goOnFrom(null, 'a', 5_000, 1_700_000_000_000);
    const again = goOnFrom(first, 'a', 9_000, 1_600_000_000_000);
    expect(sharedTimeOf(again, () => 9_000).now()).toBe(1_700_000_004_000);
    expect(sharedTimeOf(again, () => 9_000).epoch).toBe('a');
  });

  it('goes on by the wall clock where the machine was started anew', () => {
    const first = { epoch: 'a', offsetMs: 0, sharedMs: 1_000_000, wallMs: 2_000_000 };
    const again = goOnFrom(first, 'b', 12, 2_045_000);
    expect(sharedTimeOf(again, () => 12).now()).toBe(1_045_000);
    expect(again.epoch).toBe('b');
  });

  it('never goes back', () => {
    fc.assert(
      fc.property(fc.nat(), fc.nat(), fc.nat(), fc.nat(), (wall, later, monotonic, laterMonotonic) => {
        const first = goOnFrom(null, 'a', monotonic, wall);
        const again = goOnFrom(first, 'b', laterMonotonic, later);
        expect(sharedTimeOf(again, () => laterMonotonic).now()).toBeGreaterThanOrEqual(first.sharedMs);
      }),
    );
  });
});
