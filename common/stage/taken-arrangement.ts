import type { Road } from '../form/road.ts';
import { roadShape } from '../form/road-shape.ts';
import type { MakeId } from '../ids.ts';
import { courseAt } from './ahead.ts';
import { announced } from './announce.ts';
import { type Conducted, conduct, conductTakeBack } from './conduct.ts';
import type { Called } from './cue.ts';
import { roadAt } from './in-force.ts';
import { lostLeg } from './lost-leg.ts';
import { type Performance, perform } from './perform.ts';

/** The chart as it is written by now. */
export interface Written {
  /** null where there are no bars to play. */
  readonly road: Road | null;
  /** There is something to look at in it. */
  readonly isUnfinished: boolean;
}

/**
 * What the relay calls where the chart has changed since somebody took its new arrangement, which has not landed yet.
 * What is finished is taken in its place, in the name of who took it, if it can still land there. What is not, what
 * would take away the leg being played, and what is as before is only taken back: it is for the leader to take.
 * Empty where nothing was taken, or the chart is as it was taken.
 */
export const followChart = (
  performance: Performance,
  { road, isUnfinished }: Written,
  makeId: MakeId,
  nowMs: number,
): readonly Called[] => {
  const { pending } = courseAt(performance, nowMs).course;
  const all = pending.filter(({ cue }) => cue.kind === 'adopt');
  const taken = all.at(-1);
  const shape = road && roadShape(road);
  if (taken?.cue.kind !== 'adopt' || shape === roadShape(taken.cue.road)) return [];
  const called: Called[] = [];
  const then = (): Performance =>
    perform({ ...performance.take, cues: [...performance.take.cues, ...called] }, performance);
  const add = (conducted: Conducted): boolean => {
    if (conducted.ok) called.push(conducted.effect.called);
    return conducted.ok;
  };
  for (const { id } of all) {
    const at = then();
    add(conductTakeBack({ take: at.take, performance: at }, { id: makeId(), cue: id }, nowMs));
  }
  const isAsBefore = shape === roadShape(roadAt(performance, nowMs));
  if (!road || isUnfinished || isAsBefore || lostLeg(performance, road, nowMs)) return called;

  const without = then();
  const id = makeId();
  const by = taken.by === undefined ? {} : { by: taken.by };
  const call = { id, cue: { kind: 'adopt', road }, ...by } as const;
  const isCalled = add(
    conduct({ take: without.take, performance: without }, call, nowMs, { newTakeId: makeId() }),
  );
  const isInTime = isCalled && landsMs(then(), id, nowMs) === landsMs(performance, taken.id, nowMs);
  return isInTime ? called : [];
};

const landsMs = (performance: Performance, id: string, nowMs: number): number | null =>
  announced(performance, nowMs).find((one) => one.id === id)?.landsMs ?? null;

/** Words about what has been taken back stand so long, ms. */
const TOLD_MS = 20_000;

/** Whether the relay has just taken an arrangement back, and nothing has been called since. */
export const isArrangementBack = ({ take: { cues } }: Performance, nowMs: number): boolean => {
  const last = cues.findLast(({ cue }) => cue.kind !== 'tap');
  if (last?.cue.kind !== 'takeBack' || last.by !== undefined) return false;
  const { cue } = last.cue;
  const wasTaken = cues.some((called) => called.id === cue && called.cue.kind === 'adopt');
  return wasTaken && nowMs - last.calledAtMs < TOLD_MS;
};
