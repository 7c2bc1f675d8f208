import { type LocalMs, type SharedMs, sharedMs } from '../units.ts';
import {
  type BoundLine,
  type Evidence,
  evidenceOf,
  highestAt,
  highestLower,
  loosened,
  lowestAt,
  lowestUpper,
  STEEPEST,
} from './evidence.ts';
import { type Exchange, isPossible } from './exchange.ts';
import { type FittedLine, fitLine } from './fit-line.ts';
import { type Grain, grainMs, seenStamp, unknownGrain } from './grain.ts';

const MOST_EXCHANGES = 240;
const OLDEST_MS = 15 * 60_000;
/** A contradiction above this and 300 ppm of the time since is a jump of a clock, ms. */
const JUMP_MS = 2;
/** A smaller one above this means that the older evidence no longer holds, ms. */
const SLIP_MS = 0.2;

/** What is known about θ = shared − local after some exchanges. An immutable value. */
export interface Estimate {
  /** In order of arrival. */
  readonly evidence: readonly Evidence[];
  /** Pings sent before this local time don't count: the tablet may have slept in between. */
  readonly ignoreBefore: number;
  readonly grain: Grain;
  /** How often a clock jumped, so that everything older had to be forgotten. */
  readonly freshStarts: number;
  /** Made once per exchange, so that reading is a few multiplications; null before the first exchange. */
  readonly line: FittedLine | null;
  readonly highest: BoundLine;
  readonly lowest: BoundLine;
}

export interface Reading {
  readonly sharedMs: SharedMs;
  /** The truth is at most this far from `sharedMs`, whatever the delays were (given clocks within 300 ppm). */
  readonly errorMs: number;
  /** How much faster shared time runs than the tablet's, parts per million. */
  readonly skewPpm: number;
  /** How many exchanges it rests on. */
  readonly exchanges: number;
}

/** Nothing is known yet. Pings sent before `ignoreBefore` (local) will not count. */
export const newEstimate = (ignoreBefore: LocalMs | null = null): Estimate => ({
  evidence: [],
  ignoreBefore: ignoreBefore ?? Number.NEGATIVE_INFINITY,
  grain: unknownGrain,
  freshStarts: 0,
  line: null,
  highest: { at: 0, value: Number.POSITIVE_INFINITY, slope: STEEPEST },
  lowest: { at: 0, value: Number.NEGATIVE_INFINITY, slope: -STEEPEST },
});

/**
 * The same knowledge, but pongs of pings sent before this local time will be thrown away. To be told when the
 * tablet may have slept: such a pong can look perfect and be wrong, since the clock may have stood meanwhile.
 */
export const ignoringPingsBefore = (estimate: Estimate, localMs: LocalMs): Estimate => ({
  ...estimate,
  ignoreBefore: Math.max(estimate.ignoreBefore, localMs),
});

/**
 * What is known after one more exchange; they come in order of arrival. Impossible stamps and pings to be
 * ignored change nothing. Keeps at most 240 exchanges of the last 15 minutes.
 *
 * An exchange that contradicts the bounds so far by more than 2 ms + 300 ppm of the time since the last one
 * means that a clock has jumped: only the new exchange is kept, and `freshStarts` goes up. One that contradicts
 * them by less means that a clock has slipped: what contradicts it is forgotten, with everything older.
 */
export const addExchange = (estimate: Estimate, exchange: Exchange): Estimate => {
  const last = estimate.evidence.at(-1);
  const outOfOrder = last !== undefined && exchange.t3 < last.t3;
  if (!isPossible(exchange) || exchange.t0 < estimate.ignoreBefore) return estimate;

  const grain = seenStamp(seenStamp(estimate.grain, exchange.t0), exchange.t3);
  const coarserMs = grainMs(grain) - grainMs(estimate.grain);
  let older = coarserMs === 0 ? estimate.evidence : loosened(estimate.evidence, coarserMs);
  const bare = evidenceOf(exchange, grainMs(grain), []);
  let { freshStarts } = estimate;
  if (last !== undefined) {
    const allowedMs = JUMP_MS + STEEPEST * Math.max(0, exchange.t3 - last.t3);
    if (outOfOrder || older.some((one) => contradictionMs(one, bare) > allowedMs)) {
      older = [];
      freshStarts += 1;
    } else {
      // Before the grain is known, a coarse clock contradicts itself by up to 1 ms.
      const slipMs = SLIP_MS + (grainMs(grain) === 0 ? grain.candidateMs : 0);
      let from = Math.max(0, older.length - MOST_EXCHANGES + 1);
      older.forEach((one, i) => {
        if (exchange.t3 - one.t3 > OLDEST_MS || contradictionMs(one, bare) > slipMs)
          from = Math.max(from, i + 1);
      });
      older = older.slice(from);
    }
  }
  const evidence = [...older, evidenceOf(exchange, grainMs(grain), older)];
  return {
    evidence,
    ignoreBefore: estimate.ignoreBefore,
    grain,
    freshStarts,
    line: fitLine(evidence, exchange.t3, older.length === 0 ? 0 : (estimate.line?.skew ?? 0)),
    highest: lowestUpper(evidence, exchange.t3),
    lowest: highestLower(evidence, exchange.t3),
  };
};

/**
 * Shared time at a local time, or null before the first exchange. O(1): may be asked every frame. Meant for now
 * and for what comes or was a moment ago; the farther from the last exchange, the larger `errorMs`.
 */
export const readEstimate = (estimate: Estimate, localMs: LocalMs): Reading | null => {
  const { line } = estimate;
  if (line === null) return null;
  const aheadMs = localMs - line.at;
  const highest = boundAt(estimate.highest, aheadMs, 1) + grainMs(estimate.grain);
  const lowest = boundAt(estimate.lowest, aheadMs, -1);
  // The middle of what is likely, but never outside of what is possible.
  const likely = line.offset + grainMs(estimate.grain) / 2 + line.skew * aheadMs;
  const offset = lowest > highest ? (lowest + highest) / 2 : Math.min(highest, Math.max(lowest, likely));
  return {
    sharedMs: sharedMs(localMs + offset),
    errorMs: Math.max(Math.abs(highest - offset), Math.abs(offset - lowest)),
    skewPpm: line.skew * 1e6,
    exchanges: estimate.evidence.length,
  };
};

/** How far two exchanges disagree about θ if no clock jumped between them, ms; ≤ 0 = they agree. */
const contradictionMs = (older: Evidence, newer: Evidence): number =>
  Math.max(newer.lower - highestAt(older, newer.t3), lowestAt(older, newer.t0) - newer.upper);

/** Backwards from the last exchange a bound opens as fast as any clock can run; `side` is 1 above, −1 below. */
const boundAt = (line: BoundLine, aheadMs: number, side: 1 | -1): number =>
  line.value + (aheadMs >= 0 ? line.slope : -side * STEEPEST) * aheadMs;
