import timesync from 'timesync/dist/timesync.js';
import { addExchange, newEstimate, readEstimate } from '../../common/clock/estimate.ts';
import { type Exchange, offsetMs, roundTripMs } from '../../common/clock/exchange.ts';
import { localMs } from '../../common/units.ts';
import { newTwoHalves } from './two-halves.ts';

/** One way of telling shared time from exchanges. */
export interface ClockMethod {
  readonly name: string;
  /**
   * A function that is asked for shared time at ever later local times, having been given all exchanges of one
   * tablet; it uses those with t3 ≤ the time asked for. null = it can't say yet.
   */
  readonly prepare: (exchanges: readonly Exchange[]) => Promise<(localNowMs: number) => SharedGuess | null>;
}

export interface SharedGuess {
  readonly sharedMs: number;
  /** What the method itself says that it is off by at most; null = it doesn't say. */
  readonly errorMs: number | null;
}

/** Methods whose offset only changes when an exchange comes in. */
const stepping = (name: string, offsetAfter: (soFar: readonly Exchange[]) => number): ClockMethod => ({
  name,
  prepare: async (exchanges) => {
    let taken = 0;
    let offset: number | null = null;
    return (now) => {
      const before = taken;
      while (taken < exchanges.length && (exchanges[taken]?.t3 ?? 0) <= now) taken += 1;
      if (taken > before) offset = offsetAfter(exchanges.slice(0, taken));
      return offset === null ? null : { sharedMs: now + offset, errorMs: null };
    };
  },
});

const quickest = (exchanges: readonly Exchange[]): number =>
  offsetMs(exchanges.reduce((best, one) => (roundTripMs(one) < roundTripMs(best) ? one : best)));

const own: ClockMethod = {
  name: 'Tillcue',
  prepare: async (exchanges) => {
    let estimate = newEstimate();
    let taken = 0;
    return (now) => {
      for (let next = exchanges[taken]; next !== undefined && next.t3 <= now; next = exchanges[taken]) {
        estimate = addExchange(estimate, next);
        taken += 1;
      }
      return readEstimate(estimate, localMs(now));
    };
  },
};

const twoHalves: ClockMethod = {
  name: 'two halves',
  prepare: async (exchanges) => {
    const estimator = newTwoHalves();
    let taken = 0;
    return (now) => {
      for (let next = exchanges[taken]; next !== undefined && next.t3 <= now; next = exchanges[taken]) {
        estimator.add(next);
        taken += 1;
      }
      return estimator.read(now);
    };
  },
};

/** The npm package itself, one synchronisation of five requests after the other, with our clock and network. */
const timesyncPackage: ClockMethod = {
  name: 'npm timesync',
  prepare: async (exchanges) => {
    const offsets: { readonly fromMs: number; readonly offset: number }[] = [];
    let taken = 0;
    let current: Exchange | undefined;
    let asking = false;
    const sync = timesync.create({
      peers: ['relay'],
      interval: null,
      delay: 0,
      // It reads the clock once before each request and once after the answer.
      now: () => {
        asking = !asking;
        if (asking) current = exchanges[taken++];
        return (asking ? current?.t0 : current?.t3) ?? Number.NaN;
      },
    });
    sync.send = async (_to, { id }) => {
      if (current !== undefined) sync.receive('relay', { id, result: (current.t1 + current.t2) / 2 });
    };
    sync.on('change', (offset) => {
      if (current !== undefined) offsets.push({ fromMs: current.t3, offset });
    });
    while (taken + 5 <= exchanges.length) await sync.sync();
    sync.destroy();
    return (now) => {
      const inForce = offsets.filter(({ fromMs }) => fromMs <= now).at(-1);
      return inForce === undefined ? null : { sharedMs: now + inForce.offset, errorMs: null };
    };
  },
};

export const METHODS: readonly ClockMethod[] = [
  own,
  twoHalves,
  stepping('8-sample clock filter', (soFar) => quickest(soFar.slice(-8))),
  stepping('min round trip of 16', (soFar) => quickest(soFar.slice(-16))),
  timesyncPackage,
  stepping('last sample', (soFar) => quickest(soFar.slice(-1))),
];
