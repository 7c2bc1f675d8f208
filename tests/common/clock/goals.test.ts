import { describe, expect, it } from 'vitest';
import { METHODS } from '../../bench/clock-methods.ts';
import { score, scoreStart, scoreWaking } from '../../bench/clock-score.ts';
import { simulate } from '../../bench/simulated-traces.ts';

const ours = METHODS.filter(({ name }) => name === 'Tillcue');

// The whole table, with recordings and baselines, is `npm run bench -- clock`.
describe('the goals of the shared clock on a simulated network', () => {
  it.each(ours)(
    'eight tablets on wifi are within 0.6 ms of each other and 0.35 ms of the truth',
    async (method) => {
      const { spreadP99, errorP99, outsideOwnBound } = await score(
        simulate({ condition: 'wifi' }, 5, 120_000),
        method,
      );
      expect(spreadP99).toBeLessThan(0.6);
      expect(errorP99).toBeLessThan(0.35);
      expect(outsideOwnBound).toBe(0);
    },
  );

  it.each(ours)('a cold start is within 5 ms after 400 ms', async (method) => {
    const times = await scoreStart(simulate({ condition: 'wifi' }, 6, 4000), method);
    expect(times).toHaveLength(8);
    expect(Math.max(...times)).toBeLessThanOrEqual(400);
  });

  it.each(ours)('a tablet that slept is within 5 ms at its first fresh pong and stays so', async (method) => {
    const trace = simulate({ condition: 'sleep', sleepMs: [20_000, 80_000] }, 7, 120_000);
    const wakings = await scoreWaking(trace, method);
    expect(wakings).toHaveLength(4);
    for (const { withinMs, worstMs } of wakings) {
      expect(withinMs).toBeLessThanOrEqual(150);
      expect(worstMs).toBeLessThanOrEqual(5);
    }
  });
});
