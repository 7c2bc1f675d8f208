import type { Mark } from '../chart/bar-music.ts';
import { changeManner } from './change-manner.ts';
import type { Course } from './course.ts';
import type { Loop } from './manner.ts';
import type { Moment } from './moment.ts';
import { atBar, barsOf, type Spot } from './spot.ts';
import { bpmAt, type Tempo } from './tempo.ts';

/** The line at the end of the span is the end of a round. */
export const isRoundEnd = ({ manner: { loop }, span, spot }: Course): boolean =>
  loop !== null && span?.kind === 'bar' && spot?.leg.id === loop.leg && spot.barIndex === loop.to;

const CHANGES_TEMPO: readonly Mark['kind'][] = ['tempo', 'rit', 'accel', 'aTempo'];

const hasWrittenTempo = (spot: Spot, { from, to }: Loop): boolean =>
  barsOf(spot)
    .slice(from, to + 1)
    .some(({ marks }) => marks.some(({ mark }) => CHANGES_TEMPO.includes(mark.kind)));

const towards = (goal: number, now: number, step: number): number =>
  goal >= now ? Math.min(goal, now + step) : Math.max(goal, now - step);

/**
 * The tempo of the next round: one step on where so many rounds are over, else `now`, as the band goes. What a rit.
 * in the loop did is undone, or every round would be slower than the one before; not while the taps are followed.
 */
const nextBpm = ({ following, tempo }: Course, loop: Loop, spot: Spot, now: number): number => {
  const { stepBpm, everyRounds, goalBpm, round, bpm } = loop;
  const isTapped = following?.tempo === tempo;
  if (stepBpm === 0) return hasWrittenTempo(spot, loop) && !isTapped ? bpm : now;
  return round % everyRounds === 0 ? towards(goalBpm, now, stepBpm) : now;
};

/** Another round begins: the spot from which it is played. */
export const nextRound = (course: Course, at: Moment): Spot => {
  const loop = course.manner.loop as Loop;
  const spot = course.spot as Spot;
  const tempo = course.tempo as Tempo;
  const now = tempo.ramp?.bend ? tempo.ramp.toBpm : bpmAt(tempo, at.ms);
  const bpm = nextBpm(course, loop, spot, now);
  if (bpm !== now) course.tempo = { fromCount: at.count, fromMs: at.ms, bpm };
  changeManner(course, { loop: { ...loop, round: loop.round + 1, bpm } }, at.ms);
  return atBar(spot, loop.from);
};

/** The bar at a spot is one of the round that is on. */
export const isInLoop = ({ manner: { loop }, spot: from }: Course, { leg, pass, barIndex }: Spot): boolean =>
  loop !== null && leg.id === loop.leg && from?.pass === pass && barIndex >= loop.from && barIndex <= loop.to;

/** The loop is left by going somewhere else. */
export const leaveLoop = (course: Course, ms: number): void => {
  if (course.manner.loop) changeManner(course, { loop: null }, ms);
};
