import { useMemo } from 'react';
import type { BarMusic, Metre } from '../../common/chart/bar-music.ts';
import type { Chart } from '../../common/chart/chart.ts';
import { metreOf } from '../../common/chart/head.ts';
import { readBars } from '../../common/chart/read-bars.ts';
import { COMMON_TIME } from '../../common/chart/read-metre.ts';
import { useChart } from '../stand/use-chart.ts';
import type { Board } from '../state/board.ts';
import { useBoard } from '../state/board-context.tsx';
import { useObservable } from '../state/observable.ts';
import { openChart } from '../state/open-chart.ts';

/** What the practice band has to know of the tune on the stage. */
export interface OnStage {
  readonly title: string;
  readonly feel: string;
  readonly metre: Metre;
  /** What its bars mean now, by id; empty until they are read: then the road has it. */
  readonly music: ReadonlyMap<string, BarMusic>;
}

const NO_MUSIC: ReadonlyMap<string, BarMusic> = new Map();

/** The tune on a stage of one's own: that of the Shed's chart, or another one that was called there. */
export const useOnStage = ({ stage }: Pick<Board, 'stage'>, id: string, chart: Chart): OnStage => {
  const { take } = useObservable(stage);
  const other = take !== null && take.chart !== id ? take.chart : null;
  const called = useChart(useBoard(), other, openChart);
  const played = other === null ? chart : (called?.chart ?? null);
  const takeTitle = take?.title ?? '';
  return useMemo(
    () => ({
      title: played?.head.title ?? takeTitle,
      feel: played?.head.feel ?? '',
      metre: played === null ? COMMON_TIME : metreOf(played),
      music: played === null ? NO_MUSIC : readBars(played).music,
    }),
    [played, takeTitle],
  );
};
