import { readChart } from '../../../common/chart/read-chart.ts';
import type { RankedSpot } from '../../../common/form/lost-spots/lost-spots.ts';
import { lostSpots } from '../../../common/form/lost-spots/lost-spots.ts';
import type { Road } from '../../../common/form/road.ts';
import { unroll } from '../../../common/form/unroll.ts';
import {
  type AskedCue,
  type CueDrill,
  tapCueDrill,
  turnCueDrill,
} from '../../../common/rehearsal/cue-drill.ts';
import {
  type Dark,
  type LostDrill,
  tapLostDrill,
  turnLostDrill,
} from '../../../common/rehearsal/lost-drill.ts';
import { conduct } from '../../../common/stage/conduct.ts';
import type { Cue, Take } from '../../../common/stage/cue.ts';
import { judge } from '../../../common/stage/judge.ts';
import { type Performance, perform } from '../../../common/stage/perform.ts';

/** A frame of a slow tablet, ms. */
const FRAME_MS = 40;

export const roadOf = (text: string): Road => unroll(readChart(text).chart).road;

export const freshTake = (road: Road): Take => ({ id: 't0', chart: 'tune', title: 'Tune', road, cues: [] });

/** The take after a call, as a stage of one's own has it. Throws where the stage refuses. */
const called = (performance: Performance, cue: Cue, atMs: number): Performance => {
  const { take } = performance;
  const id = `${take.id} c${take.cues.length}`;
  const done = conduct({ take, performance }, { id, cue }, atMs, { newTakeId: `${take.id}'` });
  if (!done.ok) throw new Error(`${cue.kind} at ${atMs}: ${done.words}`);
  const { effect } = done;
  if (effect.kind === 'newTake') return perform(effect.take);
  return perform({ ...take, cues: [...take.cues, effect.called] }, performance);
};

/** A call of the drill, with what the stage says of it at that instant. */
export interface Heard {
  readonly cue: Cue;
  readonly atMs: number;
  readonly level: number;
  readonly barsToGo: number;
  readonly landsMs: number;
  readonly before: Performance;
}

export interface CueRound {
  readonly drill: CueDrill;
  readonly calls: readonly Heard[];
  readonly asked: readonly AskedCue[];
  readonly performance: Performance;
}

/**
 * A round of the cue drill, frame by frame.
 * @param taps when the player taps for what is asked; null is not at all
 */
export const cueRound = (
  road: Road,
  first: CueDrill,
  dice: () => number,
  untilMs: number,
  taps: (asked: AskedCue) => readonly number[],
): CueRound => {
  let drill = first;
  let performance = perform(freshTake(road));
  const calls: Heard[] = [];
  const asked: AskedCue[] = [];
  let due: number[] = [];
  for (let nowMs = 0; nowMs < untilMs; nowMs += FRAME_MS) {
    const turned = turnCueDrill(drill, performance, nowMs, dice);
    if (turned.drill.asked && turned.drill.asked !== drill.asked && !drill.asked) {
      asked.push(turned.drill.asked);
      due = [...taps(turned.drill.asked)];
    }
    drill = turned.drill;
    if (turned.call) {
      const verdict = judge(performance, turned.call, nowMs);
      calls.push({
        cue: turned.call,
        atMs: nowMs,
        level: drill.progress.level,
        barsToGo: verdict.ok ? verdict.barsToGo : Number.NaN,
        landsMs: verdict.ok ? verdict.landsMs : Number.NaN,
        before: performance,
      });
      performance = called(performance, turned.call, nowMs);
    }
    while (due[0] !== undefined && due[0] < nowMs + FRAME_MS)
      drill = tapCueDrill(drill, due.shift() as number);
  }
  return { drill, calls, asked, performance };
};

export const spotsIn = (road: Road): ((leg: string) => readonly RankedSpot[]) => {
  const ofLeg = new Map(lostSpots(road).map(({ leg, spots }) => [leg, spots]));
  return (leg) => ofLeg.get(leg) ?? [];
};

/** A round of the lost-spot drill, frame by frame. */
export const lostRound = (
  road: Road,
  first: LostDrill,
  dice: () => number,
  untilMs: number,
  tapAt: (dark: Dark) => number | null,
  spotsOf = spotsIn(road),
): { readonly drill: LostDrill; readonly darks: readonly (Dark & { readonly level: number })[] } => {
  let drill = first;
  let performance = perform(freshTake(road));
  const darks: (Dark & { readonly level: number })[] = [];
  let due: number | null = null;
  for (let nowMs = 0; nowMs < untilMs; nowMs += FRAME_MS) {
    const turned = turnLostDrill(drill, performance, spotsOf, nowMs, dice);
    if (turned.drill.dark && !drill.dark) {
      darks.push({ ...turned.drill.dark, level: turned.drill.progress.level });
      due = tapAt(turned.drill.dark);
    }
    drill = turned.drill;
    if (turned.call) performance = called(performance, turned.call, nowMs);
    if (due !== null && due < nowMs + FRAME_MS) {
      drill = tapLostDrill(drill, performance, due);
      due = null;
    }
  }
  return { drill, darks };
};
