import { courseAt } from './ahead.ts';
import { callOn } from './call.ts';
import { ruleOf } from './cue-table.ts';
import type { Performance } from './perform.ts';
import { ifHappened } from './retold.ts';

/** A cue that has just missed its line, so that the band may be where the board is not. */
export interface Missed {
  /** Its id, for `itHappened`. */
  readonly cue: string;
  /** "Last chorus". */
  readonly name: string;
  /** What the band does if it went by the cue all the same: "Head out"; may be ''. */
  readonly words: string;
}

/** The last called of the cues that `itHappened` would land at `tMs`; null where there is none. */
export const missedAt = (performance: Performance, tMs: number): Missed | null => {
  const { course, atMs } = courseAt(performance, tMs);
  for (const { id, cue } of [...course.pending].reverse()) {
    const happened = ifHappened(course, id, atMs, callOn);
    if ('why' in happened) continue;
    const { course: other, landing, last } = happened;
    const next = other.log.bars.find(({ index }) => index === landing.bar);
    const told = ruleOf(cue)?.tell(cue, { last, next, course: other });
    return { cue: id, name: told?.name ?? cue.kind, words: told?.detail ?? '' };
  }
  return null;
};
