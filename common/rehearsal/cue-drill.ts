import type { Road } from '../form/road.ts';
import type { Cue } from '../stage/cue.ts';
import { tempoAt } from '../stage/in-force.ts';
import { judge } from '../stage/judge.ts';
import { locate } from '../stage/locate.ts';
import type { Performance } from '../stage/perform.ts';
import type { Where } from '../stage/place.ts';
import { upcoming } from '../stage/upcoming.ts';
import { type Answer, type Due, errorOf, HEARD_BEATS, isHeard, isRight } from './drill-answer.ts';
import type { Dice, DrilledCue } from './drill-cues.ts';
import { afterAnswer, atLevel, beginAt, type DrillProgress } from './drill-progress.ts';
import { type CuePlan, isStillDue, planCue, withCue } from './plan-cue.ts';

/** What the player has to answer. */
export interface AskedCue extends Due {
  readonly kind: DrilledCue;
  /** The stretch of a break in which nothing is to be heard. */
  readonly silence: { readonly fromMs: number; readonly untilMs: number } | null;
  readonly tapMs: number | null;
  /** Something was played in the silence. */
  readonly broken: boolean;
}

/** A round of the cue drill, as far as it has come. A value: each step gives the next one. */
export interface CueDrill {
  readonly progress: DrillProgress;
  /** A microphone hears what is played in a break. */
  readonly listens: boolean;
  readonly answers: readonly Answer[];
  /** What will be called. */
  readonly plan: CuePlan | null;
  readonly asked: AskedCue | null;
  /** Until then no cue is thought of, shared ms. */
  readonly restUntilMs: number;
  readonly before: DrilledCue | null;
}

/** Bars of rest after an answer, by level. */
const REST_BARS = [8, 6, 6, 4, 3, 2, 2, 1] as const;
const AGAIN_AFTER_MS = 2000;
/** A hit rings on for so many beats; and so long before they come in again players take a breath. */
const RING_BEATS = 2;
const BREATH_BEATS = 0.5;
/** The longest break that is looked through for its end. */
const BREAK_BARS = 32;

export const beginCueDrill = (level: number, listens = false): CueDrill => ({
  progress: beginAt(level),
  listens,
  answers: [],
  plan: null,
  asked: null,
  restUntilMs: Number.NEGATIVE_INFINITY,
  before: null,
});

export interface Turned<Drill> {
  /** The same object where nothing has changed. */
  readonly drill: Drill;
  /** To be called now. */
  readonly call: Cue | null;
}

/** Counts in where a drill begins: the first leg that is open, for there is most to call. */
export const drillStart = ({ legs }: Road): Cue => {
  const open = legs.find(({ passes }) => passes === 'open') ?? legs[0];
  return open ? { kind: 'start', leg: open.id, barIndex: 0, pass: 1 } : { kind: 'start' };
};

/** Whether the tune is to be counted in: it waits, or has ended a while ago. */
export const isToStart = (where: Where, nowMs: number): boolean =>
  where.state === 'waiting' || (where.state === 'ended' && nowMs >= where.atMs + AGAIN_AFTER_MS);

/**
 * The drill at an instant, and what is to be called then. To be asked on every frame, with what has been called so far;
 * the answer depends on nothing else.
 */
export const turnCueDrill = (
  drill: CueDrill,
  performance: Performance,
  nowMs: number,
  dice: Dice,
): Turned<CueDrill> => {
  const { asked, plan } = drill;
  if (asked)
    return {
      drill: isOver(drill, asked, nowMs) ? close(drill, asked, performance, nowMs, dice) : drill,
      call: null,
    };
  const where = locate(performance, nowMs);
  if (where.state === 'playing' || where.state === 'held') {
    if (plan) return callPlanned(drill, plan, performance, nowMs);
    return nowMs < drill.restUntilMs ? { drill, call: null } : think(drill, performance, nowMs, where, dice);
  }
  const idle = plan ? { ...drill, plan: null } : drill;
  return { drill: idle, call: isToStart(where, nowMs) ? drillStart(performance.take.road) : null };
};

const think = (
  drill: CueDrill,
  performance: Performance,
  nowMs: number,
  where: Where,
  dice: Dice,
): Turned<CueDrill> => {
  const plan: CuePlan | null =
    where.state === 'held'
      ? { kind: 'release', calls: [{ cue: { kind: 'release' }, atMs: nowMs, landsMs: null }] }
      : planCue(performance, nowMs, drill.progress.level, drill.before, dice);
  const next: CueDrill = plan
    ? { ...drill, plan }
    : { ...drill, restUntilMs: restUntil(performance, nowMs, 1) };
  return { drill: next, call: null };
};

const callPlanned = (
  drill: CueDrill,
  plan: CuePlan,
  performance: Performance,
  nowMs: number,
): Turned<CueDrill> => {
  const [due, ...later] = plan.calls;
  if (!due || nowMs < due.atMs) return { drill, call: null };
  // On a slow or sleeping page what was planned may have gone by, or land a phrase later.
  if (!isStillDue(performance, due, nowMs)) return { drill: { ...drill, plan: null }, call: null };
  if (later.length > 0) return { drill: { ...drill, plan: { ...plan, calls: later } }, call: due.cue };
  const asked = askFor(plan.kind, performance, due.cue, nowMs);
  if (!asked) return { drill: { ...drill, plan: null }, call: null };
  return { drill: { ...drill, plan: null, before: plan.kind, asked }, call: due.cue };
};

/** What a cue that is called now asks of the player; null where nobody can say when. */
const askFor = (kind: DrilledCue, performance: Performance, cue: Cue, nowMs: number): AskedCue | null => {
  const verdict = judge(performance, cue, nowMs);
  if (!verdict.ok || !Number.isFinite(verdict.landsMs)) return null;
  const { landsMs } = verdict;
  const beatMs = 60_000 / tempoAt(performance, landsMs);
  const asked = { kind, dueMs: landsMs, beatMs, silence: null, tapMs: null, broken: false };
  if (cue.kind !== 'break') return asked;
  const after = withCue(performance, cue, nowMs);
  const back = upcoming(after, landsMs, BREAK_BARS).find(({ out }) => out === undefined);
  if (!back || !Number.isFinite(back.startMs)) return null;
  const dueMs = back.startMs;
  const silence = { fromMs: landsMs + RING_BEATS * beatMs, untilMs: dueMs - BREATH_BEATS * beatMs };
  return { ...asked, dueMs, beatMs: 60_000 / tempoAt(after, dueMs), silence };
};

/** A tap of the player at an instant. */
export const tapCueDrill = (drill: CueDrill, tapMs: number): CueDrill => {
  const { asked } = drill;
  if (!asked) return drill;
  if (asked.tapMs === null && isHeard(asked, tapMs)) return { ...drill, asked: { ...asked, tapMs } };
  return soundInBreak(drill, tapMs);
};

/** Something was heard of the player at an instant: only in a break does it matter. */
export const soundInBreak = (drill: CueDrill, atMs: number): CueDrill => {
  const { asked } = drill;
  const silence = asked?.silence;
  if (!asked || !silence || asked.broken || atMs < silence.fromMs || atMs >= silence.untilMs) return drill;
  return { ...drill, asked: { ...asked, broken: true } };
};

/** Only what the microphone alone decides needs no tap. */
const isByEar = ({ listens }: CueDrill, { silence }: AskedCue): boolean => listens && silence !== null;

const isOver = (drill: CueDrill, asked: AskedCue, nowMs: number): boolean =>
  errorOf(asked, nowMs) > (isByEar(drill, asked) && asked.tapMs === null ? 0 : HEARD_BEATS);

const answerTo = (drill: CueDrill, asked: AskedCue): Answer => {
  const { kind: name, tapMs, broken } = asked;
  const errorBeats = tapMs === null ? null : errorOf(asked, tapMs);
  const inTime = errorBeats === null ? isByEar(drill, asked) : isRight(errorBeats);
  return { name, right: inTime && !broken, errorBeats };
};

const close = (
  drill: CueDrill,
  asked: AskedCue,
  performance: Performance,
  nowMs: number,
  dice: Dice,
): CueDrill => {
  const answer = answerTo(drill, asked);
  const progress = afterAnswer(drill.progress, answer.right);
  const heldMs = nowMs + Math.floor(dice() * 5) * asked.beatMs;
  return {
    ...drill,
    progress,
    answers: [...drill.answers, answer],
    asked: null,
    restUntilMs:
      locate(performance, nowMs).state === 'held'
        ? heldMs
        : restUntil(performance, nowMs, atLevel(REST_BARS, progress.level)),
  };
};

/** Where so many more bars have been played; now where the take ends before. */
const restUntil = (performance: Performance, nowMs: number, bars: number): number => {
  const startMs = upcoming(performance, nowMs, bars)[bars - 1]?.startMs;
  return startMs !== undefined && Number.isFinite(startMs) ? startMs : nowMs;
};
