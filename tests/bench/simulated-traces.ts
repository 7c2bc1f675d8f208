import type { Exchange } from '../../common/clock/exchange.ts';
import { localMs, sharedMs } from '../../common/units.ts';
import { seededRandom } from '../support/seeded-random.ts';
import { clockAt, type TabletTrace, type Trace, type TrueClock } from './clock-trace.ts';

/**
 * Recordings made by a model of the network instead of a network, so that the benchmark runs anywhere.
 * One way: 1 ms + 0–1.5 ms a tablet + gamma(1.2, 1.5 ms) + with 4 % a Pareto tail (6 ms, 1.3, at most 120 ms);
 * 0.3 % of the packets are lost and come a retransmission later, holding up those behind them, as TCP does;
 * about every 20 s a bad spell of 0.8 s adds 5–30 ms up, 10–60 ms down and 5 % loss.
 */
export interface Network {
  readonly condition: string;
  /** Added to the way down on tablets 1, 3, 5, 7. */
  readonly asymmetryMs?: number;
  /** So many times as many tails, losses and bad spells. */
  readonly badness?: number;
  /** Now and then a queue of this length fills up and drains again. */
  readonly burstMs?: number;
  /** Relay times between which there is no relay. */
  readonly relayGoneMs?: readonly [number, number];
  /** Tablets 0–3 are stopped between these relay times; the clocks of 2 and 3 freeze meanwhile. */
  readonly sleepMs?: readonly [number, number];
}

export const NETWORKS: readonly Network[] = [
  { condition: 'wifi' },
  { condition: 'wifi in bad shape', badness: 2 },
  { condition: 'bursts of 200 ms', burstMs: 200 },
  { condition: 'relay restarted', relayGoneMs: [120_000, 124_000] },
  { condition: 'asym', asymmetryMs: 8 },
  { condition: 'sleep', sleepMs: [100_000, 160_000] },
];

const EXTRA_MS = [0, 0.2, 0.5, 1, 0, 0.3, 0.7, 1.5];
const CLOCKS: readonly TrueClock[] = [50, -30, 12, -80, 100, 0, 25, -50].map((skewPpm, i) => ({
  offsetMs: [123456.789, 98765.4321, 5000, 777777.7, 31415.9265, 271828.1828, 1000.5, 654321.1][i] ?? 0,
  skewPpm,
  wanderAmpMs: i < 4 ? 0 : 0.1,
  wanderPeriodMs: 240_000,
}));

/** Eight tablets for `durationMs`; the same seed gives the same recording. */
export const simulate = (network: Network, seed: number, durationMs = 300_000): Trace => ({
  condition: network.condition,
  durationMs,
  tablets: CLOCKS.map((clock, i) => simulateTablet(network, clock, i, seed * 8 + i, durationMs)),
});

const simulateTablet = (
  network: Network,
  plainClock: TrueClock,
  index: number,
  seed: number,
  durationMs: number,
): TabletTrace => {
  const random = seededRandom(seed);
  const asleepMs = network.sleepMs !== undefined && index < 4 ? network.sleepMs : null;
  const clock = asleepMs !== null && index >= 2 ? { ...plainClock, freezeMs: asleepMs } : plainClock;
  const badness = network.badness ?? 1;
  const spells = timesOf(random, 20_000 / badness, durationMs, 800);
  const floods = network.burstMs === undefined ? [] : timesOf(random, 15_000, durationMs, 1500);
  const within = (ranges: readonly (readonly [number, number])[], ms: number) =>
    ranges.some(([from, to]) => ms >= from && ms < to);
  const awake = (ms: number) => (asleepMs !== null && within([asleepMs], ms) ? asleepMs[1] : ms);

  const direction = (extraMs: number, badMs: readonly [number, number]) => {
    let lastArrivalMs = 0;
    return (sentMs: number): number => {
      const bad = within(spells, sentMs);
      let delayMs = 1 + (EXTRA_MS[index] ?? 0) + extraMs + gamma(random, 1.2, 1.5);
      if (random() < 0.04 * badness) delayMs += Math.min(120, 6 * (random() ** (-1 / 1.3) - 1));
      if (bad) delayMs += badMs[0] + (badMs[1] - badMs[0]) * random();
      const flood = floods.find(([from, to]) => sentMs >= from && sentMs < to);
      if (flood !== undefined) delayMs += (network.burstMs ?? 0) * (1 - (sentMs - flood[0]) / 1500);
      for (let rtoMs = 210; random() < (bad ? 0.05 : 0.003) * badness; rtoMs *= 2) delayMs += rtoMs;
      lastArrivalMs = Math.max(lastArrivalMs + 0.02, sentMs + delayMs);
      return lastArrivalMs;
    };
  };
  const up = direction(0, [5, 30]);
  const down = direction(index % 2 === 1 ? (network.asymmetryMs ?? 0) : 0, [10, 60]);

  const exchanges: Exchange[] = [];
  let burstUntilMs = 3000;
  let sendMs = 40 + 60 * random();
  while (sendMs < durationMs) {
    const resumedMs = awake(sendMs);
    if (resumedMs > sendMs || (network.relayGoneMs !== undefined && within([network.relayGoneMs], sendMs))) {
      sendMs = Math.max(resumedMs, network.relayGoneMs?.[1] ?? 0) + 20 * random();
      burstUntilMs = sendMs + 3000;
    }
    const arrivesMs = up(sendMs);
    const answeredMs = arrivesMs + 0.01 + 0.03 * random();
    const backMs = awake(down(answeredMs)) + 0.05 + 0.1 * random();
    const lost = network.relayGoneMs !== undefined && within([network.relayGoneMs], arrivesMs);
    if (!lost && backMs < durationMs) {
      exchanges.push({
        t0: localMs(clockAt(clock, sendMs)),
        t1: sharedMs(arrivesMs),
        t2: sharedMs(answeredMs),
        t3: localMs(clockAt(clock, backMs)),
      });
    }
    sendMs += (sendMs < burstUntilMs ? 100 : 500) + 4 * random();
  }
  return { clock, exchanges, asleepMs };
};

const timesOf = (random: () => number, meanGapMs: number, durationMs: number, lengthMs: number) => {
  const times: [number, number][] = [];
  for (let atMs = -meanGapMs * Math.log(1 - random()); atMs < durationMs; ) {
    times.push([atMs, atMs + lengthMs]);
    atMs += lengthMs - meanGapMs * Math.log(1 - random());
  }
  return times;
};

/** A gamma variate for shape ≥ 1: Marsaglia & Tsang 2000, "A simple method for generating gamma variables". */
const gamma = (random: () => number, shape: number, scale: number): number => {
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
    const v = (1 + c * x) ** 3;
    if (v > 0 && Math.log(1 - random()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v * scale;
  }
};
