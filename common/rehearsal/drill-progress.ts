/** How far somebody has come in a drill. */
export interface DrillProgress {
  /** 1 to `LEVELS`. */
  readonly level: number;
  readonly rightInARow: number;
  readonly missedInARow: number;
}

export const LEVELS = 8;
const RIGHT_TO_RISE = 3;
const MISSED_TO_FALL = 2;

const clampLevel = (level: number): number => Math.min(LEVELS, Math.max(1, Math.round(level)));

/** Where a drill begins: at that level, the nearest there is. */
export const beginAt = (level: number): DrillProgress => ({
  level: Number.isFinite(level) ? clampLevel(level) : 1,
  rightInARow: 0,
  missedInARow: 0,
});

/**
 * How it goes on after an answer: up after three right ones in a row, down after two misses.
 * @example afterAnswer({ level: 1, rightInARow: 2, missedInARow: 0 }, true).level // 2
 */
export const afterAnswer = (progress: DrillProgress, right: boolean): DrillProgress => {
  const rightInARow = right ? progress.rightInARow + 1 : 0;
  const missedInARow = right ? 0 : progress.missedInARow + 1;
  if (rightInARow >= RIGHT_TO_RISE) return beginAt(progress.level + 1);
  if (missedInARow >= MISSED_TO_FALL) return beginAt(progress.level - 1);
  return { level: progress.level, rightInARow, missedInARow };
};

/** What a level has, from a list of one entry a level. */
export const atLevel = <Item>(items: readonly Item[], level: number): Item =>
  items[clampLevel(level) - 1] as Item;
