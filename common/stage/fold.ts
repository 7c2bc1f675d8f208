import { callOn } from './call.ts';
import { type Course, copyCourse, type LogLengths, lengthsOf, logUpTo, NO_LOG } from './course.ts';
import type { Cue } from './cue.ts';
import { walkTo } from './walk.ts';

/** A cue that was folded, and how to get back to the moment before it. Never changed: performances share it. */
export interface Folded {
  readonly id: string;
  readonly cue: Cue;
  readonly by?: string;
  readonly atMs: number;
  /** The course before it, without its log, and how long that log was. */
  readonly before: Course;
  readonly lengths: LogLengths;
  readonly previous: Folded | null;
}

/**
 * The fold itself: a course that has come to `atMs`, and the cues that still count, the last one first. A take
 * back cuts back to before its cue and folds the later ones again.
 */
export class Fold {
  course: Course;
  last: Folded | null;
  atMs: number;

  constructor(course: Course, last: Folded | null = null, atMs = Number.NEGATIVE_INFINITY) {
    this.course = course;
    this.last = last;
    this.atMs = atMs;
  }

  /** An earlier stamp counts as the one before. */
  stamp(calledAtMs: number): void {
    if (Number.isFinite(calledAtMs)) this.atMs = Math.max(this.atMs, calledAtMs);
  }

  hear(id: string, cue: Cue, by: string | undefined, atMs = this.atMs): void {
    walkTo(this.course, atMs);
    const called = { id, cue, ...(by === undefined ? {} : { by }), atMs };
    const before = copyCourse(this.course, NO_LOG);
    this.last = { ...called, before, lengths: lengthsOf(this.course.log), previous: this.last };
    callOn(this.course, called);
  }

  takeBack(id: string): void {
    walkTo(this.course, this.atMs);
    const { log } = this.course;
    if (log.landings.some((landing) => landing.id === id && !landing.refused)) return;
    const later: Folded[] = [];
    let found = this.last;
    for (; found && found.id !== id; found = found.previous) later.push(found);
    if (!found) return;
    this.course = copyCourse(found.before, logUpTo(log, found.lengths));
    this.last = found.previous;
    for (const again of later.reverse()) this.hear(again.id, again.cue, again.by, again.atMs);
    walkTo(this.course, this.atMs);
  }
}
