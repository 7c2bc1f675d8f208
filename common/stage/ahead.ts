import { type Course, copyCourse, type Log, type Piece } from './course.ts';
import type { Performance, Run } from './perform.ts';
import { goesRound, nextEvent, step, walkBars, walkTo } from './walk.ts';

/** Makes sure that the log reaches beyond `tMs`. */
const walkAhead = (run: Run, tMs: number): void => {
  if (run.ahead.state === 'rolling') walkTo(run.ahead, tMs);
};

/** Makes sure that bar `index` is in the log, if there will be one. */
export const walkToBar = ({ run }: Performance, index: number): void => walkBars(run.ahead, index + 1);

/** Makes sure that everything called is in the log of landings; what waits for an open leg stays pending. */
export const walkToLandings = ({ run }: Performance): void => {
  while (run.ahead.state === 'rolling' && run.ahead.pending.length > 0 && !goesRound(run.ahead)) {
    step(run.ahead, nextEvent(run.ahead));
  }
};

/** Index in the log, as far as it has been walked, of the piece in which `tMs` lies; −1 before the first. */
export const pieceIndexAt = ({ pieces }: Log, tMs: number): number => {
  let from = 0;
  let to = pieces.length;
  while (from < to) {
    const middle = (from + to) >>> 1;
    if ((pieces[middle] as Piece).fromMs <= tMs) from = middle + 1;
    else to = middle;
  }
  return from - 1;
};

/** The piece of the take in which `tMs` lies; undefined while waiting. */
export const pieceAt = ({ run }: Performance, tMs: number): Piece | undefined => {
  walkAhead(run, tMs);
  return run.log.pieces[pieceIndexAt(run.log, tMs)];
};

/**
 * A course that has come to `tMs`, to be tried on a copy. An instant before the last cue counts as that cue's,
 * as it would for a cue that is called.
 */
export const courseAt = ({ run }: Performance, tMs: number): { course: Course; atMs: number } => {
  const atMs = Math.max(tMs, run.foldedMs);
  const from = run.cursor.atMs <= atMs ? run.cursor.course : run.folded;
  const course = copyCourse(from);
  walkTo(course, atMs);
  run.cursor = { course, atMs };
  return { course: copyCourse(course), atMs };
};
