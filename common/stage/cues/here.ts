import type { RoadBar } from '../../form/road.ts';
import type { Course } from '../course.ts';
import type { Cue } from '../cue.ts';
import { type CueRule, refusal } from '../cue-rule.ts';
import { enterBar } from '../enter-bar.ts';
import { writtenHoldPulse } from '../hold-onset.ts';
import { isInLoop, leaveLoop } from '../loop-round.ts';
import { placeWords } from '../place-words.ts';
import { barOf, type Spot } from '../spot.ts';
import { bpmAt, countAt, type Tempo } from '../tempo.ts';
import { TOLERANCE_PULSES } from '../written-marks.ts';
import { writtenBpm } from '../written-tempo.ts';
import { findSpot, isRefusal } from './find-spot.ts';

type Here = Extract<Cue, { kind: 'here' }>;

/** A press farther than this from the relay's time is not believed. */
const FARTHEST_PRESS_MS = 1000;

/** The tempo at which the band goes on: while it holds, the one before the hold. */
const goingOn = ({ tempo, count, startBpm }: Course, atMs: number): Tempo => {
  if (!tempo) return { fromCount: count, fromMs: atMs, bpm: startBpm };
  return tempo.still ? { fromCount: tempo.fromCount, fromMs: atMs, bpm: tempo.bpm } : tempo;
};

/**
 * A slip within a pass by less than two bars says where the band is, not that it plays a bar more or less: the
 * break that it is in ends where it would have ended.
 */
const keepBreak = (course: Course, to: Spot): void => {
  const { span, spot: from } = course;
  if (span?.kind !== 'bar' || from?.leg !== to.leg || from.pass !== to.pass) return;
  const { out, outBarsLeft = 0 } = span.coming;
  const back = from.barIndex - to.barIndex;
  if (!out || Math.abs(back) > 1) return;
  course.outBars = outBarsLeft + 1 + back;
  course.outHit = out === 'hit' && back === 0;
};

/** The pulse at which the band is now, if it was at `pulse` so long ago: it does not go beyond a written hold. */
const pulseSince = (spot: Spot, bar: RoadBar, pulse: number, sinceMs: number, bpm: number): number =>
  Math.min(
    pulse + (sinceMs * bpm) / 60_000,
    Math.max(pulse, writtenHoldPulse(spot, bar, pulse - TOLERANCE_PULSES)),
  );

/** "here": that place is now, or was at the press. */
export const here: CueRule<Here> = {
  family: 'move',
  while: ['waiting', 'rolling'],
  boundary: () => 'atOnce',
  refuseAtCall: (cue, course, atMs) => {
    const found = findSpot(course, cue);
    if (isRefusal(found)) return found;
    const { pressedAtMs = atMs, pulse = 0 } = cue;
    if (!(pulse >= 0 && pulse < (barOf(found)?.pulses ?? 0))) {
      return refusal('noSuchPulse', 'There is no such beat in that bar.');
    }
    return Math.abs(atMs - pressedAtMs) <= FARTHEST_PRESS_MS
      ? null
      : refusal('pressTooFar', 'That was too long ago: press again.');
  },
  atOnce: (course, { pulse: slip, pressedAtMs, ...cue }, atMs, id) => {
    const pulse = slip ?? 0;
    const spot = findSpot(course, cue) as Spot;
    const bar = barOf(spot) as RoadBar;
    const tempo = goingOn(course, atMs);
    const count = Math.max(course.count, countAt(tempo, atMs));
    const bpm = writtenBpm(spot, bar, pulse) ?? bpmAt(tempo, atMs);
    // A press in the future is a clock that is a little ahead: it counts as now.
    const sinceMs = Math.max(0, atMs - (pressedAtMs ?? atMs));
    keepBreak(course, spot);
    // It is more than a release, which would end the next hold.
    course.pending = course.pending.filter((pending) => pending.cue.kind !== 'release');
    // In the lead before a count-in nothing moves yet: the tempo begins with the bar.
    course.tempo = atMs >= tempo.fromMs ? tempo : { fromCount: count, fromMs: atMs, bpm };
    const fromPulse = pulseSince(spot, bar, pulse, sinceMs, bpm);
    if (slip === undefined || !isInLoop(course, spot)) leaveLoop(course, atMs);
    enterBar(course, spot, { count, ms: atMs }, [id], { fromPulse });
    course.beforeLines = [];
  },
  tell: (cue, { next }) => ({
    name: 'Here',
    detail: next ? placeWords(next.leg, cue.barIndex, undefined) : '',
  }),
};
