import type { MannerFrom } from '../stage/passages.ts';
import type { ComingBar } from '../stage/place.ts';

const SIGNS = ['ppp', 'pp', 'p', 'mp', 'mf', 'f', 'ff', 'fff'];
const PLAIN = SIGNS.indexOf('mf');
const DOWN = SIGNS.indexOf('p');
const LOUDEST = SIGNS.length - 1;
/** A crescendo goes so many levels in so many bars, and then stays until something else is said. */
const SWELL_LEVELS = 2;
const SWELL_BARS = 8;

const SOFTEST_FACTOR = 0.4;
const FACTOR_A_LEVEL = 0.15;

/** The sign in force: the one called before the one written. */
const signOf = ({ manner }: MannerFrom): string | null => manner.dynamic ?? manner.writtenDynamic;

const SWELLS: Readonly<Record<string, number>> = { build: 1, cresc: 1, dim: -1 };

/**
 * How loud the band is, as a factor for velocities that are meant for f: mf (where nothing is said) is 1 level below.
 * `build` and `cresc` grow by two levels in eight bars, `dim` falls so; `down` is p.
 * @param bars those of the take, from which bars are counted
 */
export const loudnessAt = (
  manners: readonly MannerFrom[],
  bars: readonly ComingBar[],
  atMs: number,
): number => {
  let level = PLAIN;
  let sign: string | null = null;
  let sinceMs = Number.NEGATIVE_INFINITY;
  for (const from of manners) {
    if (from.fromMs > atMs + 1e-3) break;
    const next = signOf(from);
    if (next === sign) continue;
    level = levelAt(level, sign, barsBetween(bars, sinceMs, from.fromMs));
    sign = next;
    sinceMs = from.fromMs;
  }
  level = levelAt(level, sign, barsBetween(bars, sinceMs, atMs));
  return SOFTEST_FACTOR + FACTOR_A_LEVEL * level;
};

/** The level after so many bars under a sign, from the level before it. */
const levelAt = (before: number, sign: string | null, bars: number): number => {
  const swell = sign === null ? undefined : SWELLS[sign];
  if (swell !== undefined) {
    const way = Math.min(1, bars / SWELL_BARS) * SWELL_LEVELS * swell;
    return Math.min(LOUDEST, Math.max(0, before + way));
  }
  if (sign === 'down') return DOWN;
  const level = sign === null ? PLAIN : SIGNS.indexOf(sign);
  return level < 0 ? before : level;
};

/** Bars that have begun after one instant and by another. Whole ones, so that a later tempo changes nothing before it. */
const barsBetween = (bars: readonly ComingBar[], fromMs: number, toMs: number): number =>
  barsBy(bars, toMs) - barsBy(bars, fromMs);

const barsBy = (bars: readonly ComingBar[], tMs: number): number => {
  let from = 0;
  let to = bars.length;
  while (from < to) {
    const middle = (from + to) >>> 1;
    if ((bars[middle] as ComingBar).startMs <= tMs) from = middle + 1;
    else to = middle;
  }
  return from;
};
