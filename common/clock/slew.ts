import { type LocalMs, type SharedMs, sharedMs } from '../units.ts';

/** ms; up to here a correction hides at 2 %, less than the 2.5 % of tempo that anybody notices. */
const HIDDEN_MS = 20;
const HIDDEN_RATE = 0.02;
/** ms; up to here it may be seen, at 20 %: 250 ms are made up in about two seconds. */
const SLEWED_MS = 250;
const SLEWED_RATE = 0.2;
/** ms; beyond this the stand shows that it has jumped. */
const RESEEK_MS = 2000;

/** What a stand showed at a moment of its own clock. */
export interface Shown {
  readonly localMs: LocalMs;
  readonly sharedMs: SharedMs;
  /** How far shown time jumped to get here, ms, + = forward; 0 unless this was a re-seek. */
  readonly reseekMs: number;
}

/** Shows shared time as it is, with nothing shown before. */
export const showFrom = (localMs: LocalMs, target: SharedMs): Shown => ({
  localMs,
  sharedMs: target,
  reseekMs: 0,
});

/** Shown time going on at the pace of the tablet's own clock. */
export const coast = (shown: Shown, localMs: LocalMs): Shown =>
  localMs < shown.localMs
    ? { ...shown, reseekMs: 0 }
    : { localMs, sharedMs: sharedMs(shown.sharedMs + (localMs - shown.localMs)), reseekMs: 0 };

/**
 * What to show at local time `localMs` when shared time is believed to be `target`:
 *
 * | shown time is off by | it                                                                    |
 * | -------------------- | --------------------------------------------------------------------- |
 * | up to 20 ms          | runs at most 2 % faster or slower                                     |
 * | up to 250 ms         | runs at most 20 % faster or slower                                    |
 * | more                 | steps forward at once, or holds still until it is only 250 ms ahead   |
 * | more than 2 s        | jumps either way, and `reseekMs` says how far: the page makes it seen |
 *
 * Laws: shown time never runs backwards unless `reseekMs` < 0; and asking more often changes nothing:
 * `slew(slew(s, b, y), c, z)` is `slew(s, c, z)` for b between s and c as long as the target runs at the pace of
 * the local clock.
 */
export const slew = (shown: Shown, localMs: LocalMs, target: SharedMs): Shown => {
  if (localMs < shown.localMs) return { ...shown, reseekMs: 0 };
  const passedMs = localMs - shown.localMs;
  const behindMs = target - shown.sharedMs - passedMs;
  const size = Math.abs(behindMs);
  if (size > RESEEK_MS) return { localMs, sharedMs: target, reseekMs: behindMs };
  if (behindMs > SLEWED_MS) return { localMs, sharedMs: target, reseekMs: 0 };
  const sign = behindMs < 0 ? -1 : 1;
  let leftMs = passedMs;
  let correctionMs = 0;
  // Each stage takes what time it needs from what has passed and leaves the rest to the gentler next one.
  const correct = (untilMs: number, rate: number) => {
    const todoMs = Math.min(Math.max(0, size - correctionMs - untilMs), leftMs * rate);
    correctionMs += todoMs;
    leftMs -= todoMs / rate;
  };
  correct(SLEWED_MS, 1);
  correct(HIDDEN_MS, SLEWED_RATE);
  correct(0, HIDDEN_RATE);
  const next = shown.sharedMs + passedMs + sign * correctionMs;
  // Rounding must not take back a fraction of a microsecond.
  return { localMs, sharedMs: sharedMs(Math.max(shown.sharedMs, next)), reseekMs: 0 };
};
