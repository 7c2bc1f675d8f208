import { useMemo } from 'react';
import type { Chart } from '../../common/chart/chart.ts';
import type { LostSpotsSaid } from '../../common/document/lost-spots-said.ts';
import type { Road } from '../../common/form/road.ts';
import { roadShape } from '../../common/form/road-shape.ts';
import { problemsOf, toLookAt } from '../../common/form/to-look-at.ts';
import { unroll } from '../../common/form/unroll.ts';
import { roadAt } from '../../common/stage/in-force.ts';
import { useChart } from '../stand/use-chart.ts';
import type { Board } from '../state/board.ts';
import { useObservable } from '../state/observable.ts';
import { openChart } from '../state/open-chart.ts';
import type { Edited } from './offers.ts';

/** The chart of the tune that is on, as it is written now. */
export interface StageChart {
  /** null until it is here. */
  readonly chart: Chart | null;
  /** What is said of its lost spots. */
  readonly said: LostSpotsSaid | null;
  /** Where it is another arrangement than the one being played. */
  readonly edited: Edited | null;
  readonly chartKey: string;
}

const shapeOf = (road: Road | null): string => (road === null ? '' : roadShape(road));

export const useStageChart = (board: Board): StageChart => {
  const { take, performance } = useObservable(board.stage);
  const state = useChart(board, take?.chart ?? null, openChart);
  const chart = state?.chart ?? null;
  const written = useMemo(() => (chart === null ? null : unroll(chart).road), [chart]);
  // The same object until another arrangement is taken, however many cues come.
  const played = performance === null ? null : roadAt(performance, board.sharedNow());
  const writtenShape = useMemo(() => shapeOf(written), [written]);
  const playedShape = useMemo(() => shapeOf(played), [played]);
  const isEdited = played !== null && writtenShape !== playedShape;
  const edited = useMemo(
    () =>
      isEdited && chart !== null && written !== null
        ? { road: written, toLookAt: toLookAt(problemsOf(chart)).count }
        : null,
    [isEdited, chart, written],
  );
  return {
    chart,
    said: state?.said ?? null,
    edited,
    chartKey: chart?.head.key ?? take?.road.key ?? '',
  };
};
