import type { Cue } from '../../common/stage/cue.ts';
import { locate } from '../../common/stage/locate.ts';
import type { Performance } from '../../common/stage/perform.ts';
import type { ComingBar } from '../../common/stage/place.ts';
import { barsAround } from '../../common/stage/upcoming.ts';

type Here = Extract<Cue, { kind: 'here' }>;

/** By how much a touch puts everyone right. */
export type SlipLength = 'beat' | 'half bar';

/**
 * Pulses of a slip in that bar. A bar that has no half (3/4, 5/4) slips by a beat.
 * @example slipPulses('half bar', 4) // 2
 */
export const slipPulses = (length: SlipLength, barPulses: number): number =>
  length === 'half bar' && barPulses % 2 === 0 ? barPulses / 2 : 1;

/**
 * The band is where the board is, and so many pulses on (a beat early) or back (a beat late): the cue that puts
 * everyone there, over bar lines and passes. Null where no bar is known so far off.
 * @param bars the bar at the press (index `now`) with those around it, as `barsAround` gives them
 * @param pulse of that bar at the press
 */
export const slipCue = (
  bars: readonly ComingBar[],
  now: number,
  pulse: number,
  byPulses: number,
  pressedAtMs: number,
): Here | null => {
  let at = now;
  let to = pulse + byPulses;
  while (to < 0) {
    at -= 1;
    to += bars[at]?.bar.pulses ?? Number.POSITIVE_INFINITY;
  }
  for (
    let length = bars[at]?.bar.pulses;
    length !== undefined && to >= length;
    length = bars[at]?.bar.pulses
  ) {
    at += 1;
    to -= length;
  }
  const there = bars[at]?.place;
  if (there === undefined || !Number.isFinite(to)) return null;
  const { leg, pass, barIndex } = there;
  return { kind: 'here', leg, pass, barIndex, pulse: to, pressedAtMs };
};

/** The cue that puts a slip right, from where the board was at the press; null where the band does not play. */
export const slipAt = (
  performance: Performance,
  sign: 1 | -1,
  length: SlipLength,
  pressedAtMs: number,
): Here | null => {
  const where = locate(performance, pressedAtMs);
  if (where.state !== 'playing') return null;
  const { bars, now } = barsAround(performance, pressedAtMs, 4, 4);
  const pulses = slipPulses(length, bars[now]?.bar.pulses ?? 0);
  return slipCue(bars, now, where.place.pulse, sign * pulses, pressedAtMs);
};
