import { localMs, sharedMs } from '../../common/units.ts';
import type { ClockMethod } from './clock-methods.ts';
import { clockAt, coarse, type TabletTrace, type Trace, thinned } from './clock-trace.ts';
import { quantile } from './quantile.ts';

const FROM_MS = 30_000;
const GRID_MS = 100;
/** After waking a stand says "finding the beat" for a moment; that time is scored by `scoreWaking`. */
const SETTLING_MS = 2000;

export interface Score {
  /** Largest minus smallest error of the eight tablets at one moment, ms. */
  readonly spreadP99: number;
  readonly errorP99: number;
  /** Share of moments at which the method was off by more than it said itself; null = it doesn't say. */
  readonly outsideOwnBound: number | null;
}

/** Errors of all tablets from 30 s on, one ping a second. */
export const score = async (trace: Trace, method: ClockMethod, grain = 0): Promise<Score> => {
  const readers = await Promise.all(trace.tablets.map((tablet) => prepared(tablet, method, grain)));
  const spreads: number[] = [];
  const errors: number[] = [];
  let bounded = 0;
  let outside = 0;
  for (let relayMs = FROM_MS; relayMs < trace.durationMs; relayMs += GRID_MS) {
    const now: number[] = [];
    trace.tablets.forEach(({ clock, asleepMs }, i) => {
      const guess = readers[i]?.(coarse(clockAt(clock, relayMs), grain)) ?? null;
      const asleep = asleepMs !== null && relayMs >= asleepMs[0] && relayMs < asleepMs[1] + SETTLING_MS;
      if (guess === null || asleep) return;
      const error = guess.sharedMs - relayMs;
      now.push(error);
      errors.push(Math.abs(error));
      if (guess.errorMs === null) return;
      bounded += 1;
      if (Math.abs(error) > guess.errorMs) outside += 1;
    });
    if (now.length === trace.tablets.length) spreads.push(Math.max(...now) - Math.min(...now));
  }
  return {
    spreadP99: quantile(spreads, 0.99),
    errorP99: quantile(errors, 0.99),
    outsideOwnBound: bounded === 0 ? null : outside / bounded,
  };
};

/** Of every tablet: ms from its first ping until it is within 5 ms and stays so for the first 3 s. */
export const scoreStart = async (trace: Trace, method: ClockMethod): Promise<number[]> =>
  Promise.all(
    trace.tablets.map(async (tablet) => {
      const read = await prepared(tablet, method, 0);
      const startMs = relayTimeOf(tablet, tablet.exchanges[0]?.t0 ?? 0);
      return lastBad(tablet, read, startMs, startMs + 3000) - startMs;
    }),
  );

export interface WakingScore {
  /** ms from the first fresh pong until within 5 ms. */
  readonly withinMs: number;
  /** Largest error after that, ms. */
  readonly worstMs: number;
}

/** Of every tablet that slept. */
export const scoreWaking = async (trace: Trace, method: ClockMethod): Promise<WakingScore[]> =>
  Promise.all(
    trace.tablets.flatMap((tablet) => {
      if (tablet.asleepMs === null) return [];
      const wokeMs = tablet.asleepMs[1];
      const fresh = tablet.exchanges.find(({ t1 }) => t1 >= wokeMs);
      if (fresh === undefined) return [];
      return [
        (async () => {
          const read = await prepared(tablet, method, 0);
          const freshMs = relayTimeOf(tablet, fresh.t3) + 0.01;
          let withinMs = Number.POSITIVE_INFINITY;
          let worstMs = 0;
          for (let relayMs = freshMs; relayMs < trace.durationMs; relayMs += 5) {
            const guess = read(clockAt(tablet.clock, relayMs));
            const error = guess === null ? Number.POSITIVE_INFINITY : Math.abs(guess.sharedMs - relayMs);
            if (withinMs === Number.POSITIVE_INFINITY && error <= 5) withinMs = relayMs - freshMs;
            if (withinMs < Number.POSITIVE_INFINITY) worstMs = Math.max(worstMs, error);
          }
          return { withinMs, worstMs };
        })(),
      ];
    }),
  );

const prepared = (tablet: TabletTrace, method: ClockMethod, grain: number) =>
  method.prepare(
    thinned(tablet.exchanges).map(({ t0, t1, t2, t3 }) => ({
      t0: localMs(coarse(t0, grain)),
      t1: sharedMs(t1),
      t2: sharedMs(t2),
      t3: localMs(coarse(t3, grain)),
    })),
  );

const lastBad = (
  { clock }: TabletTrace,
  read: (localNowMs: number) => { readonly sharedMs: number } | null,
  fromMs: number,
  toMs: number,
): number => {
  let badMs = fromMs;
  for (let relayMs = fromMs; relayMs < toMs; relayMs += 2) {
    const guess = read(clockAt(clock, relayMs));
    if (guess === null || Math.abs(guess.sharedMs - relayMs) > 5) badMs = relayMs;
  }
  return badMs;
};

/** Relay time at which the tablet's clock shows `local`, found by halving; the later one of a frozen clock. */
const relayTimeOf = ({ clock }: TabletTrace, local: number): number => {
  let low = -1000;
  let high = 1e6;
  while (high - low > 1e-4) {
    const middle = (low + high) / 2;
    if (clockAt(clock, middle) <= local) low = middle;
    else high = middle;
  }
  return high;
};
