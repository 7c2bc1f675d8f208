import type { Course, Pending } from './course.ts';
import { crossLine, stopTake } from './cross-line.ts';
import { ruleOf } from './cue-table.ts';
import type { Moment } from './moment.ts';
import type { Tempo } from './tempo.ts';

const isRelease = ({ cue }: Pending): boolean => cue.kind === 'release';
const isStop = ({ cue }: Pending): boolean => ruleOf(cue)?.turn === 'end';

/** When a cue ends the hold that began at `sinceMs`; Infinity where it waits for the release, or for a tap. */
const endsHoldMs = (pending: Pending, sinceMs: number): number => {
  const { cue, fromMs } = pending;
  if (cue.kind === 'release') return cue.onTap ? Number.POSITIVE_INFINITY : Math.max(sinceMs, fromMs);
  if (!isStop(pending)) return Number.POSITIVE_INFINITY;
  // A stop for the end of the pass that was on its way before goes on waiting for it.
  if (fromMs > sinceMs) return fromMs;
  return ruleOf(cue)?.boundary(cue) === 'pulse' ? sinceMs : Number.POSITIVE_INFINITY;
};

/** The end of the hold: when the first release or stop lands, at Infinity while nobody has called one. */
export const nextRelease = (course: Course): Moment => {
  const { fromCount, fromMs } = course.tempo as Tempo;
  let ms = Number.POSITIVE_INFINITY;
  for (const pending of course.pending) ms = Math.min(ms, endsHoldMs(pending, fromMs));
  return { count: course.span?.end ?? fromCount, ms };
};

/** The hold is over: the take has been stopped, or the next bar begins at the tempo before the hold. */
export const endHold = (course: Course, at: Moment): void => {
  const { fromCount, fromMs, bpm } = course.tempo as Tempo;
  const stops = course.pending.filter((p) => isStop(p) && endsHoldMs(p, fromMs) <= at.ms);
  if (stops.length > 0 && Number.isFinite(at.ms)) {
    course.pending = course.pending.filter((pending) => !stops.includes(pending));
    stopTake(course, { count: fromCount, ms: at.ms }, stops);
    return;
  }
  const releases = course.pending.filter(isRelease);
  course.pending = course.pending.filter((pending) => !isRelease(pending));
  course.tempo = { fromCount: at.count, fromMs: at.ms, bpm };
  const landed = releases.map((pending) => ({ pending, refused: null }));
  crossLine(course, at, landed);
};
