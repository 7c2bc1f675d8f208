import { callOn } from './call.ts';
import { type Course, copyCourse, emptyLog, type Log } from './course.ts';
import type { Called, Cue, Take } from './cue.ts';
import { soundRoad } from './sound-road.ts';
import { walkTo } from './walk.ts';

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
  /** The bars, tempos and landings from the start on, as far as somebody has asked. */
  readonly log: Log;
  /** Where `log` ends. */
  readonly ahead: Course;
  /** A course between the two, for questions about now. */
  cursor: { readonly course: Course; readonly atMs: number };
  /** Ids of the cues that were refused, dropped or taken back before they landed. */
  readonly void: ReadonlySet<string>;
}

/** A cue that was folded, and how to get back to the moment before it. */
interface Folded {
  readonly id: string;
  readonly cue: Cue;
  readonly by?: string;
  readonly atMs: number;
  readonly before: Course;
  readonly lengths: readonly number[];
}

const lists = (log: Log): readonly { length: number }[] => [log.pieces, log.bars, log.landings, log.roads];

const restore = (folded: Folded): Course => {
  lists(folded.before.log).forEach((list, i) => {
    list.length = folded.lengths[i] as number;
  });
  return { ...folded.before };
};

const waitingCourse = (take: Take): Course => {
  const road = soundRoad(take.road);
  return {
    log: emptyLog(),
    road,
    state: 'waiting',
    startBpm: road.tempoBpm,
    startBpmCalled: false,
    spot: null,
    span: null,
    tempo: null,
    count: 0,
    outBars: 0,
    outHit: false,
    bars: 0,
    pending: [],
  };
};

/**
 * The fold itself. `folded` are the cues that still count, in order; a take back cuts back to before its cue
 * and folds the later ones again.
 */
class Fold {
  course: Course;
  folded: Folded[] = [];
  refused = new Set<string>();
  atMs = Number.NEGATIVE_INFINITY;

  constructor(take: Take) {
    this.course = waitingCourse(take);
  }

  hear(id: string, cue: Cue, atMs: number, by?: string): void {
    walkTo(this.course, atMs);
    const before = { ...this.course };
    const lengths = lists(this.course.log).map((list) => list.length);
    const whose = by === undefined ? {} : { by };
    this.folded.push({ id, cue, ...whose, atMs, before, lengths });
    const heard = callOn(this.course, { id, cue, ...whose, atMs });
    if (heard.ok) this.refused.delete(id);
    else this.refused.add(id);
  }

  takeBack(id: string, atMs: number): void {
    walkTo(this.course, atMs);
    const index = this.folded.findIndex((folded) => folded.id === id);
    const cue = this.folded[index];
    if (!cue || this.course.log.landings.some((landing) => landing.id === id && !landing.refused)) return;
    const later = this.folded.slice(index + 1);
    this.folded.length = index;
    this.course = restore(cue);
    this.refused.add(id);
    for (const again of later) this.hear(again.id, again.cue, again.atMs, again.by);
    walkTo(this.course, atMs);
  }
}

const isCalled = (called: Called): boolean =>
  typeof called?.id === 'string' && typeof called.cue?.kind === 'string';

/**
 * Folds the cues of a take, in order. An earlier stamp counts as the one before, a repeated id is ignored, and
 * a cue that makes no sense changes nothing; it answers for every take.
 */
export const perform = (take: Take): Performance => {
  const fold = new Fold(take);
  const seen = new Set<string>();
  for (const called of take.cues) {
    if (!isCalled(called) || seen.has(called.id)) continue;
    seen.add(called.id);
    if (Number.isFinite(called.calledAtMs)) fold.atMs = Math.max(fold.atMs, called.calledAtMs);
    if (!Number.isFinite(fold.atMs)) continue;
    if (called.cue.kind === 'takeBack') fold.takeBack(called.cue.cue, fold.atMs);
    else fold.hear(called.id, called.cue, fold.atMs, called.by);
  }
  const { course, atMs } = fold;
  const folded = copyCourse(course);
  const run: Run = {
    folded,
    foldedMs: atMs,
    log: course.log,
    ahead: course,
    cursor: { course: folded, atMs },
    void: fold.refused,
  };
  return { take, run };
};
