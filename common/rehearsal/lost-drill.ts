import type { RankedSpot } from '../form/lost-spots/lost-spots.ts';
import { tempoAt } from '../stage/in-force.ts';
import { locate } from '../stage/locate.ts';
import type { Performance } from '../stage/perform.ts';
import { upcoming } from '../stage/upcoming.ts';
import { drillStart, isToStart, type Turned } from './cue-drill.ts';
import { type DarkStretch, nextDark } from './dark-stretch.ts';
import { type Answer, type Due, errorOf, isRight } from './drill-answer.ts';
import type { Dice } from './drill-cues.ts';
import { afterAnswer, beginAt, type DrillProgress } from './drill-progress.ts';

/** A stretch in the dark with its times. */
export interface Dark extends DarkStretch, Due {
  readonly fromMs: number;
  /** Then it is light again, whether anybody tapped or not. */
  readonly untilMs: number;
}

/** A round of the lost-spot drill, as far as it has come. A value: each step gives the next one. */
export interface LostDrill {
  readonly progress: DrillProgress;
  readonly answers: readonly Answer[];
  readonly dark: Dark | null;
  /** Until then it stays light, shared ms. */
  readonly restUntilMs: number;
}

/** The name under which the way to the top is scored. */
export const TOP = 'top';

const RIGHT_BEATS = 1;
/** Two passes of the longest forms. */
const HORIZON_BARS = 160;
const GENTLE_LEVELS = 2;
const REST_BARS = 2;
const GENTLE_REST_BARS = 4;

export const beginLostDrill = (level: number): LostDrill => ({
  progress: beginAt(level),
  answers: [],
  dark: null,
  restUntilMs: Number.NEGATIVE_INFINITY,
});

/** The drill at an instant, and what is to be called then. To be asked on every frame. */
export const turnLostDrill = (
  drill: LostDrill,
  performance: Performance,
  spotsOf: (leg: string) => readonly RankedSpot[],
  nowMs: number,
  dice: Dice,
): Turned<LostDrill> => {
  const { dark } = drill;
  if (dark)
    return {
      drill: nowMs < dark.untilMs ? drill : answered(drill, dark, null, performance, nowMs),
      call: null,
    };
  const where = locate(performance, nowMs);
  if (where.state !== 'playing') {
    return { drill, call: isToStart(where, nowMs) ? drillStart(performance.take.road) : null };
  }
  if (nowMs < drill.restUntilMs) return { drill, call: null };
  const coming = upcoming(performance, nowMs, HORIZON_BARS);
  const stretch = nextDark(coming, spotsOf, drill.progress.level, dice);
  if (!stretch) return { drill: { ...drill, restUntilMs: coming[0]?.startMs ?? nowMs }, call: null };
  return { drill: { ...drill, dark: timed(stretch, performance) }, call: null };
};

const timed = (stretch: DarkStretch, performance: Performance): Dark => {
  const { from, due } = stretch;
  const dueMs = due.startMs;
  const beatMs = 60_000 / tempoAt(performance, dueMs);
  return { ...stretch, fromMs: from.startMs, dueMs, beatMs, untilMs: dueMs + due.bar.pulses * beatMs };
};

/** Whether nothing is to be seen at an instant. */
export const isDark = ({ dark }: LostDrill, nowMs: number): boolean => dark !== null && nowMs >= dark.fromMs;

/** A tap of the player at an instant; in the light it is not heard. */
export const tapLostDrill = (drill: LostDrill, performance: Performance, tapMs: number): LostDrill => {
  const { dark } = drill;
  if (!dark || tapMs < dark.fromMs || tapMs >= dark.untilMs) return drill;
  return answered(drill, dark, errorOf(dark, tapMs), performance, tapMs);
};

const answered = (
  drill: LostDrill,
  dark: Dark,
  errorBeats: number | null,
  performance: Performance,
  atMs: number,
): LostDrill => {
  const right = errorBeats !== null && isRight(errorBeats, RIGHT_BEATS);
  const progress = afterAnswer(drill.progress, right);
  const restBars = progress.level <= GENTLE_LEVELS ? GENTLE_REST_BARS : REST_BARS;
  const lastLit = upcoming(performance, atMs, restBars)[restBars - 1];
  return {
    progress,
    answers: [...drill.answers, { name: dark.spot?.id ?? TOP, right, errorBeats }],
    dark: null,
    restUntilMs: lastLit?.startMs ?? atMs,
  };
};
