import type { Exchange } from '../../common/clock/exchange.ts';
import type { SharedGuess } from './clock-methods.ts';

const STEEPEST = 300e-6;

/**
 * A simpler relative of `common/clock/estimate`, kept to show what the fitted line is worth: the skew is the
 * slope between the midpoints of the bounds of the older and the newer half at their centres, damped by
 * h²/(h² + (7.5 s)²); all bounds are carried with it and widened by 5 ppm + min(100 ppm, 0.5 ms / span) of their age.
 */
export const newTwoHalves = () => {
  let exchanges: readonly Exchange[] = [];
  let skew = 0;
  let widening = 0;
  const boundsAt = (some: readonly Exchange[], at: number) => {
    let upper = Number.POSITIVE_INFINITY;
    let lower = Number.NEGATIVE_INFINITY;
    for (const { t0, t1, t2, t3 } of some) {
      upper = Math.min(upper, t1 - t0 + skew * (at - t0) + widening * Math.abs(at - t0));
      lower = Math.max(lower, t2 - t3 + skew * (at - t3) - widening * Math.abs(at - t3));
    }
    return { middle: (upper + lower) / 2, half: (upper - lower) / 2, upper, lower };
  };
  return {
    add: (exchange: Exchange): void => {
      const last = exchanges.at(-1);
      if (last !== undefined) {
        const allowedMs = 2 + STEEPEST * (exchange.t3 - last.t3);
        const tooHigh = exchange.t2 - exchange.t3 - boundsAt(exchanges, exchange.t3).upper;
        const tooLow = boundsAt(exchanges, exchange.t0).lower - (exchange.t1 - exchange.t0);
        if (Math.max(tooHigh, tooLow) > allowedMs) {
          exchanges = [];
          skew = 0;
        }
      }
      exchanges = [...exchanges, exchange].slice(-240);
      const from = exchanges[0]?.t0 ?? exchange.t0;
      const spanMs = exchange.t3 - from;
      widening = 5e-6 + Math.min(100e-6, 0.5 / spanMs);
      const older = exchanges.filter(({ t3 }) => t3 < from + spanMs / 2);
      const newer = exchanges.slice(older.length);
      if (spanMs <= 4000 || older.length < 6 || newer.length < 6) return;
      const apart = spanMs / 2;
      const rise = boundsAt(newer, from + 1.5 * apart).middle - boundsAt(older, from + 0.5 * apart).middle;
      const damped = (rise / apart) * (apart ** 2 / (apart ** 2 + 7500 ** 2));
      skew = Math.max(-STEEPEST, Math.min(STEEPEST, damped));
    },
    read: (localNowMs: number): SharedGuess | null => {
      if (exchanges.length === 0) return null;
      const { middle, half } = boundsAt(exchanges, localNowMs);
      return { sharedMs: localNowMs + middle, errorMs: half };
    },
  };
};
