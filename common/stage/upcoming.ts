import { courseAt, pieceAt, walkToBar } from './ahead.ts';
import { callOn } from './call.ts';
import type { Performance } from './perform.ts';
import type { ComingBar } from './place.ts';
import { walkBars } from './walk.ts';

/** While waiting: the first bars as they would be if somebody counted in now. */
const firstBars = (performance: Performance, tMs: number, n: number): readonly ComingBar[] => {
  const { course, atMs } = courseAt(performance, tMs);
  if (course.state !== 'waiting') return [];
  callOn(course, { id: '', cue: { kind: 'start' }, atMs });
  walkBars(course, n);
  return course.log.bars.slice(0, n).map((bar) => ({ ...bar, lands: [] }));
};

/** Index of the bar at `tMs` and of the one that follows. */
const around = (performance: Performance, tMs: number): { now: number; next: number } => {
  const piece = pieceAt(performance, tMs);
  if (!piece) return { now: -1, next: 0 };
  const { span } = piece;
  if (span?.kind === 'count') return { now: -1, next: span.nextBar };
  if (span) return { now: span.coming.index, next: span.coming.index + 1 };
  // After the end: behind the last bar that began before it.
  const { bars } = performance.run.log;
  let next = bars.length;
  while (next > 0 && (bars[next - 1] as ComingBar).startMs > tMs) next -= 1;
  return { now: -1, next };
};

/**
 * The bar being played with up to `before` bars before it and `after` after it. `now` is its index in `bars`;
 * −1 while waiting, counting, or ended, when the bars before are those that were played.
 */
export const barsAround = (
  performance: Performance,
  tMs: number,
  before: number,
  after: number,
): { readonly bars: readonly ComingBar[]; readonly now: number } => {
  const piece = pieceAt(performance, tMs);
  if (!piece) return { bars: firstBars(performance, tMs, after), now: -1 };
  const { now, next } = around(performance, tMs);
  walkToBar(performance, next + after - 1);
  const first = Math.max(0, (now >= 0 ? now : next) - before);
  const bars = performance.run.log.bars.slice(first, piece.span ? next + after : next);
  return { bars, now: now >= 0 ? now - first : -1 };
};

/**
 * The next `n` bars, each with the time at which it begins and with what will have landed by then; fewer where
 * the take ends. While counting or waiting: the first `n` (while waiting with times as if the count-in were
 * called at `tMs`).
 */
export const upcoming = (performance: Performance, tMs: number, n: number): readonly ComingBar[] => {
  const { bars, now } = barsAround(performance, tMs, 0, n);
  return bars.slice(now + 1);
};
