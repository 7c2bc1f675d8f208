import {
  type Course,
  copyCourse,
  emptyLog,
  type Log,
  type LogLengths,
  lengthsOf,
  logUpTo,
} from './course.ts';
import type { Called, Take } from './cue.ts';
import { Fold, type Folded } from './fold.ts';
import { freshManner } from './manner.ts';
import { soundRoad } from './sound-road.ts';

/**
 * A take folded: what `locate`, `upcoming`, `announced` and `judge` read. Opaque outside `stage`. What lies
 * ahead is walked when somebody asks and then kept; the answers do not depend on what was asked before.
 */
export interface Performance {
  readonly take: Take;
  readonly run: Run;
}

export interface Run {
  /** Where the last cue of the take left it: nothing after that has happened yet. */
  readonly folded: Course;
  /** Shared time of the last cue; −Infinity where there is none. */
  readonly foldedMs: number;
  /** The cues that count, the last one first, and how long the log was after it. */
  readonly last: Folded | null;
  readonly lengths: LogLengths;
  /** The bars, tempos and landings from the start on, as far as somebody has asked. */
  readonly log: Log;
  /** Where `log` ends. */
  readonly ahead: Course;
  /** A course between the two, for questions about now. */
  cursor: { readonly course: Course; readonly atMs: number };
}

const waitingCourse = (take: Take): Course => {
  const road = soundRoad(take.road);
  const startSemitones = take.semitones ?? 0;
  return {
    log: emptyLog(),
    road,
    state: 'waiting',
    startBpm: road.tempoBpm,
    startBpmCalled: false,
    counting: [],
    startSemitones,
    manner: freshManner(startSemitones),
    spot: null,
    span: null,
    tempo: null,
    following: null,
    aTempoBpm: null,
    count: 0,
    outBars: 0,
    outHit: false,
    bars: 0,
    countLines: 0,
    pending: [],
    beforeLines: [],
    heard: [],
    stopped: null,
  };
};

/** True where `later` is the same take after more cues: the earlier ones are the very same objects. */
const goesOnFrom = (earlier: Take, later: Take): boolean =>
  earlier.id === later.id &&
  earlier.road === later.road &&
  earlier.cues.length <= later.cues.length &&
  earlier.cues.every((called, i) => called === later.cues[i]);

/** A fold that has come as far as the performance. It writes to a log of its own. */
const foldFrom = ({ folded, log, lengths, last, foldedMs }: Run): Fold =>
  new Fold(copyCourse(folded, logUpTo(log, lengths)), last, foldedMs);

const isCalled = (called: Called): boolean =>
  typeof called?.id === 'string' && typeof called.cue?.kind === 'string';

/**
 * Folds the cues of a take, in order. An earlier stamp counts as the one before, a repeated id is ignored, and
 * a cue that makes no sense changes nothing; it answers for every take.
 *
 * `before` is a performance of the same take with fewer cues: then only the new ones are folded, with the same
 * answer (`perform(take, before)` is `perform(take)`, whatever was asked of `before`); for the others no more is
 * done than to compare and copy references. `before` stays as it is. A performance that the take does not go on
 * from is of no use and does no harm.
 */
export const perform = (take: Take, before?: Performance | null): Performance => {
  const earlier = before && goesOnFrom(before.take, take) ? before : null;
  const fold = earlier ? foldFrom(earlier.run) : new Fold(waitingCourse(take));
  const heard = earlier ? earlier.take.cues : [];
  const seen = new Set<string>();
  for (const called of take.cues.slice(heard.length)) {
    if (!isCalled(called) || seen.has(called.id) || heard.some((one) => one?.id === called.id)) continue;
    seen.add(called.id);
    fold.stamp(called.calledAtMs);
    if (!Number.isFinite(fold.atMs)) continue;
    if (called.cue.kind === 'takeBack') fold.takeBack(called.cue.cue);
    else fold.hear(called.id, called.cue, called.by);
  }
  const { course, last, atMs } = fold;
  const folded = copyCourse(course);
  const run: Run = {
    folded,
    foldedMs: atMs,
    last,
    lengths: lengthsOf(course.log),
    log: course.log,
    ahead: course,
    cursor: { course: folded, atMs },
  };
  return { take, run };
};
