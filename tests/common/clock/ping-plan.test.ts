import { describe, expect, it } from 'vitest';
import { afterPing, burst } from '../../../common/clock/ping-plan.ts';

describe('the plan of pings', () => {
  it('asks ten times at 100 ms, then once a second', () => {
    const waits: number[] = [];
    let plan = burst;
    for (let i = 0; i < 12; i++) {
      const next = afterPing(plan);
      waits.push(next.waitMs);
      plan = next.plan;
    }
    expect(waits).toEqual([100, 100, 100, 100, 100, 100, 100, 100, 100, 1000, 1000, 1000]);
  });
});
