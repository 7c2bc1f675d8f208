import type { Course, Landing, Pending } from './course.ts';
import { seenMs } from './enter-bar.ts';
import { linesInCount } from './lines-to.ts';
import type { Moment } from './moment.ts';
import type { Place } from './place.ts';
import type { Refusal } from './refusal.ts';

export interface Outcome {
  readonly pending: Pending;
  readonly refused: Refusal | null;
}

/** Writes down what became of the cues that were due: all at one place, in the bar with this index. */
export const writeLandings = (
  course: Course,
  outcomes: readonly Outcome[],
  at: Moment,
  place: Place,
  bar: number,
): void => {
  const { span, countLines } = course;
  const counted = span?.kind === 'count' ? linesInCount(span, at.count) : 0;
  for (const { pending, refused } of outcomes) {
    const { id, cue, by } = pending;
    const landing: Landing = {
      id,
      cue,
      ...(by === undefined ? {} : { by }),
      ...(refused ? { refused } : {}),
      count: at.count,
      ms: seenMs(course, at.ms),
      place,
      bar,
      line: bar + countLines + counted,
    };
    course.log.landings.push(landing);
  }
};
