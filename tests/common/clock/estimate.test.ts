import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addExchange,
  type Estimate,
  ignoringPingsBefore,
  newEstimate,
  readEstimate,
} from '../../../common/clock/estimate.ts';
import { localMs } from '../../../common/units.ts';
import { exchange } from '../../support/exchange.ts';

interface TestClock {
  /** Shared − local at local time 0, ms. */
  readonly offset: number;
  readonly skewPpm: number;
}

const trueShared = ({ offset, skewPpm }: TestClock, local: number) => local + offset + skewPpm * 1e-6 * local;

/** An exchange on true clocks: sent at local time t0, so long on its way up, at the relay, and down. */
const sent = (clock: TestClock, t0: number, up: number, held: number, down: number) => {
  const t1 = trueShared(clock, t0) + up;
  const t3 = t0 + (up + held + down) / (1 + clock.skewPpm * 1e-6);
  return exchange(t0, t1, t1 + held, t3);
};

const estimateOf = (exchanges: readonly ReturnType<typeof exchange>[]): Estimate =>
  exchanges.reduce(addExchange, newEstimate());

const SAME_RATE: TestClock = { offset: 1_700_000_000_000.25, skewPpm: 0 };

describe('the estimate of shared time', () => {
  it('knows nothing before the first exchange', () => {
    expect(readEstimate(newEstimate(), localMs(5))).toBeNull();
  });

  it('is exact when both ways take equally long', () => {
    const reading = readEstimate(estimateOf([sent(SAME_RATE, 1000.3, 4, 0.1, 4)]), localMs(1008.4));
    expect(reading?.sharedMs).toBeCloseTo(trueShared(SAME_RATE, 1008.4), 2);
    expect(reading?.errorMs).toBeCloseTo(4, 1);
    expect(reading?.exchanges).toBe(1);
  });

  it('contains the truth whatever the delays are, while clocks run at one rate', () => {
    const delay = fc.oneof(
      fc.double({ min: 0, max: 5, noNaN: true }),
      fc.double({ min: 0, max: 2000, noNaN: true }),
    );
    fc.assert(
      fc.property(
        fc.double({ min: -1e9, max: 2e12, noNaN: true }),
        fc.integer({ min: -290, max: 290 }),
        fc.array(fc.tuple(fc.double({ min: 50, max: 3000, noNaN: true }), delay, delay), {
          minLength: 1,
          maxLength: 60,
        }),
        fc.double({ min: 0, max: 60_000, noNaN: true }),
        (offset, skewPpm, pings, laterMs) => {
          const clock = { offset, skewPpm };
          let t0 = 0.377;
          const exchanges = pings.map(([gap, up, down]) => {
            t0 += gap;
            return sent(clock, t0, up, 0.05, down);
          });
          exchanges.sort((a, b) => a.t3 - b.t3);
          let estimate = newEstimate();
          for (const one of exchanges) {
            estimate = addExchange(estimate, one);
            const readAt = localMs(one.t3 + laterMs);
            const reading = readEstimate(estimate, readAt);
            if (reading === null) throw new Error('an exchange was not taken');
            const errorMs = Math.abs(reading.sharedMs - trueShared(clock, readAt));
            // 0.002 ms: what is left of a double at 2e12 after a few additions.
            expect(errorMs).toBeLessThanOrEqual(reading.errorMs + 0.002);
          }
          expect(estimate.freshStarts).toBe(0);
        },
      ),
      { numRuns: 150, seed: 20 },
    );
  });

  it('leaves the estimate it was given as it was', () => {
    const before = estimateOf([sent(SAME_RATE, 10.7, 3, 0, 3)]);
    const copy = structuredClone(before);
    addExchange(before, sent(SAME_RATE, 1010.7, 2, 0, 3));
    expect(before).toEqual(copy);
  });

  it('learns how much faster shared time runs, and coasts on it', () => {
    const clock = { offset: 5e6, skewPpm: 100 };
    const exchanges = Array.from({ length: 120 }, (_, i) =>
      sent(clock, i * 1000 + 0.123, 2 + ((i * 7) % 11), 0.05, 2 + ((i * 5) % 13)),
    );
    const estimate = estimateOf(exchanges);
    const minuteLater = localMs(180_000);
    const reading = readEstimate(estimate, minuteLater);
    expect(reading?.skewPpm).toBeGreaterThan(95);
    expect(reading?.skewPpm).toBeLessThan(105);
    expect(Math.abs((reading?.sharedMs ?? 0) - trueShared(clock, minuteLater))).toBeLessThan(0.5);
  });

  it('is less sure the longer nobody has answered', () => {
    const estimate = estimateOf([sent(SAME_RATE, 10.7, 3, 0, 3)]);
    const errorAt = (local: number) => readEstimate(estimate, localMs(local))?.errorMs ?? 0;
    expect(errorAt(60_000)).toBeGreaterThan(errorAt(1000) + 10);
    expect(errorAt(60_000)).toBeLessThan(errorAt(1000) + 20);
  });

  it('reads a moment before the last exchange, too', () => {
    const clock = { offset: 1000, skewPpm: 40 };
    const estimate = estimateOf([sent(clock, 10.7, 3, 0, 3), sent(clock, 1010.7, 3, 0, 3)]);
    const reading = readEstimate(estimate, localMs(500));
    expect(Math.abs((reading?.sharedMs ?? 0) - trueShared(clock, 500))).toBeLessThanOrEqual(
      reading?.errorMs ?? 0,
    );
  });

  it('starts afresh when a clock has jumped', () => {
    const late = { ...SAME_RATE, offset: SAME_RATE.offset + 60_000 };
    const steady = Array.from({ length: 20 }, (_, i) => sent(SAME_RATE, i * 1000 + 0.3, 2, 0, 2));
    const estimate = addExchange(estimateOf(steady), sent(late, 20_000.3, 3, 0, 3));
    expect(estimate.freshStarts).toBe(1);
    expect(estimate.evidence).toHaveLength(1);
    expect(readEstimate(estimate, localMs(20_010))?.sharedMs).toBeCloseTo(trueShared(late, 20_010), 1);
  });

  it('does not take a slow network for a jump', () => {
    const steady = Array.from({ length: 20 }, (_, i) => sent(SAME_RATE, i * 1000 + 0.3, 2, 0, 2));
    const estimate = addExchange(estimateOf(steady), sent(SAME_RATE, 20_000.3, 900, 0, 1500));
    expect(estimate.freshStarts).toBe(0);
    expect(estimate.evidence).toHaveLength(21);
  });

  it('forgets what no longer holds when a clock has slipped by less than a jump', () => {
    const slipped = { ...SAME_RATE, offset: SAME_RATE.offset + 1.5 };
    const exchanges = [
      ...Array.from({ length: 20 }, (_, i) => sent(SAME_RATE, i * 1000 + 0.3, 0.3, 0, 0.3)),
      ...Array.from({ length: 3 }, (_, i) => sent(slipped, (20 + i) * 1000 + 0.3, 0.3, 0, 0.3)),
    ];
    const estimate = estimateOf(exchanges);
    const reading = readEstimate(estimate, localMs(22_500));
    expect(estimate.freshStarts).toBe(0);
    expect(Math.abs((reading?.sharedMs ?? 0) - trueShared(slipped, 22_500))).toBeLessThan(0.4);
  });

  it('throws away the pong of a ping sent before a sleep, which looks perfect and is wrong', () => {
    const awake = estimateOf(Array.from({ length: 5 }, (_, i) => sent(SAME_RATE, i * 1000 + 0.3, 2, 0, 2)));
    // Sent at 5000, answered at once, but the clock stood for a minute before the answer was seen.
    const perfect = exchange(5000.3, trueShared(SAME_RATE, 5002.3), trueShared(SAME_RATE, 5002.3), 5004.3);
    const woken = ignoringPingsBefore(awake, localMs(5004));
    expect(addExchange(woken, perfect)).toBe(woken);
    expect(addExchange(newEstimate(localMs(5004)), perfect).evidence).toHaveLength(0);
    expect(addExchange(awake, perfect).evidence).toHaveLength(6);
  });

  it.each([
    ['a stamp is no number', exchange(1, Number.NaN, 3, 4)],
    ['the pong came back before the ping went', exchange(10, 100, 101, 9)],
    ['the relay answered before it was asked', exchange(1, 100, 99, 4)],
    ['a stamp is infinite', exchange(1, 100, 101, Number.POSITIVE_INFINITY)],
  ])('ignores an exchange in which %s', (_, impossible) => {
    const before = newEstimate();
    expect(addExchange(before, impossible)).toBe(before);
  });

  it('keeps at most 240 exchanges, and none older than 15 minutes', () => {
    const many = Array.from({ length: 300 }, (_, i) => sent(SAME_RATE, i * 1000 + 0.3, 2, 0, 2));
    expect(estimateOf(many).evidence).toHaveLength(240);
    const rare = Array.from({ length: 30 }, (_, i) => sent(SAME_RATE, i * 60_000 + 0.3, 2, 0, 2));
    const estimate = estimateOf(rare);
    expect(estimate.evidence).toHaveLength(16);
  });

  it.each([0.1, 1])('stays inside its own bound on a clock rounded down to %s ms', (grain) => {
    const rounded = (ms: number) => Math.floor(ms / grain) * grain;
    const clock = { offset: 777.123, skewPpm: 20 };
    let estimate = newEstimate();
    for (let i = 0; i < 60; i++) {
      const { t0, t1, t2, t3 } = sent(clock, i * 1003.37, 0.05 + (i % 3) / 10, 0.02, 0.05 + (i % 5) / 10);
      estimate = addExchange(estimate, exchange(rounded(t0), t1, t2, rounded(t3)));
      if (i < 6) continue;
      for (const laterMs of [0.11, 0.57, 0.93]) {
        const reading = readEstimate(estimate, localMs(rounded(t3 + laterMs)));
        const errorMs = Math.abs((reading?.sharedMs ?? 0) - trueShared(clock, t3 + laterMs));
        expect(errorMs).toBeLessThanOrEqual(reading?.errorMs ?? 0);
        expect(errorMs).toBeLessThan(0.2 + grain);
      }
    }
    expect(estimate.freshStarts).toBe(0);
  });
});
