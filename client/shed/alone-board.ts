import { unroll } from '../../common/form/unroll.ts';
import { failed, ok } from '../../common/result.ts';
import type { ConductContext } from '../../common/stage/conduct.ts';
import type { Cue, Take } from '../../common/stage/cue.ts';
import { perform } from '../../common/stage/perform.ts';
import { semitonesAskedFor } from '../../common/theory/asked-key.ts';
import { type SharedMs, sharedMs } from '../../common/units.ts';
import { loadedChart } from '../book/loaded-chart.ts';
import { type Alone, callAlone, takeBackAlone } from '../stand/call-alone.ts';
import type { Board, StageState } from '../state/board.ts';
import type { Refusal } from '../state/link-state.ts';
import { makeId } from '../state/make-id.ts';
import { settable } from '../state/observable.ts';

/** A board for one: the band's charts, but a stage of one's own, conducted on this tablet by its own clock. */
export interface AloneBoard extends Board {
  /** Another take in place of the one that is on. */
  readonly setTake: (take: Take) => void;
}

/** The clock of a stage for one: this tablet's own, which is always exact, and goes on where the page is loaded anew. */
export const aloneNow = (): SharedMs => sharedMs(performance.timeOrigin + performance.now());

const NO_LEAD: Refusal = { why: 'alone', words: 'In the Shed you are by yourself.' };
const NO_CHART: Refusal = { why: 'noSuchChart', words: 'This tablet does not have that tune yet.' };

/** The tune that a call asks for, as this tablet has it. */
const tuneFor = async (board: Board, cue: Cue): Promise<ConductContext['chart']> => {
  if (cue.kind !== 'callTune') return undefined;
  const state = await loadedChart(board, cue.chart);
  if (state === null) return undefined;
  const { road } = unroll(state.chart);
  const semitones = cue.key === undefined ? 0 : (semitonesAskedFor(road.key, cue.key) ?? 0);
  return {
    id: cue.chart,
    title: state.chart.head.title ?? '',
    road,
    ...(semitones === 0 ? {} : { semitones }),
  };
};

/** @param people whoever sits at this tablet */
export const aloneBoard = (board: Board, people: Board['people'], first: Take): AloneBoard => {
  const stageOf = (take: Take, before: StageState | null): StageState => ({
    take,
    performance: perform(take, before?.performance ?? undefined),
  });
  const stage = settable(stageOf(first, null));
  const carryOut = (alone: Alone) => {
    if ('words' in alone) return failed({ why: alone.why, words: alone.words });
    stage.set(stageOf(alone.take, stage.get()));
    return ok(alone.called);
  };
  return {
    ...board,
    role: 'leader',
    stage,
    setTake: (take) => stage.set(stageOf(take, null)),
    leading: settable({}),
    people,
    link: settable({ state: 'on' }),
    clock: settable({ ready: true, errorMs: 0, roundTripMs: 0 }),
    sharedNow: aloneNow,
    onReseek: () => () => {},
    call: async (cue) => {
      const chart = await tuneFor(board, cue);
      if (cue.kind === 'callTune' && chart === undefined) return failed(NO_CHART);
      const called = carryOut(callAlone(stage.get(), cue, aloneNow(), makeId, chart));
      if (!called.ok) return called;
      const { id, calledAtMs } = called.value;
      return ok({ id, cue, calledAtMs });
    },
    takeBack: async (id) => {
      const called = carryOut(takeBackAlone(stage.get(), id, aloneNow(), makeId));
      return called.ok ? ok(null) : called;
    },
    lead: async () => failed(NO_LEAD),
    point: () => {},
  };
};
