import type { Course } from './course.ts';
import type { Cue } from './cue.ts';
import type { Announcement, ComingBar } from './place.ts';
import type { Refusal } from './refusal.ts';

/**
 * Where a cue lands. A pass end is also a phrase, bar and pulse end; `passCount` is a pass end or the bar
 * where the last pass parts from the others; `roadEnd` is where the last leg ends by itself; `chord` is where a
 * bar's last chord begins, `round` is where a round of a loop ends, `release` is within a hold.
 */
export type Boundary =
  | 'atOnce'
  | 'pulse'
  | 'phrase'
  | 'pass'
  | 'passCount'
  | 'lastBars'
  | 'roadEnd'
  | 'chord'
  | 'round'
  | 'release';

/**
 * The turn of a cue among those that land together: the end wins, then what decides the place, then what the
 * bar that begins is like: breaks, the manner in which it is played, its tempo. A hold comes last.
 */
export type Turn = 'end' | 'place' | 'bar' | 'manner' | 'tempo' | 'hold' | 'release';

/** What a cue is told by: the last bar before it and the bar that follows. */
export interface Scene {
  readonly last?: ComingBar | undefined;
  readonly next?: ComingBar | undefined;
  readonly course: Course;
}

export interface Told {
  readonly name: string;
  readonly detail: string;
}

/** One row of the table of cues. */
export interface CueRule<C extends Cue = Cue> {
  readonly family: Announcement['family'];
  /** When it may be called. */
  readonly while: readonly Course['state'][];
  readonly boundary: (cue: C) => Boundary;
  readonly turn?: Turn;
  /** It must be said before the leg changes. */
  readonly forThisLeg?: true;
  /** Checked on the course at the moment of the call: fields out of range, places that do not exist. */
  readonly refuseAtCall?: (cue: C, course: Course, atMs: number) => Refusal | null;
  /** Checked where notice is over, on a course that has come so far by the earlier cues. */
  readonly refuseAtNotice?: (cue: C, course: Course) => Refusal | null;
  /** What it does where it takes effect without a boundary. */
  readonly atOnce?: (course: Course, cue: C, atMs: number, id: string) => void;
  /** What it does where it lands; answers why it makes no sense there, and then does nothing. */
  readonly land?: (
    course: Course,
    cue: C,
    at: { readonly count: number; readonly ms: number },
  ) => Refusal | null;
  readonly tell: (cue: C, scene: Scene) => Told;
}

export const refusal = (why: string, words: string): Refusal => ({ why, words });
