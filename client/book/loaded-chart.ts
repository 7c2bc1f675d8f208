import type { Board } from '../state/board.ts';
import type { ChartState } from '../state/chart-handle.ts';
import { openChart } from '../state/open-chart.ts';

/** How long the chart may take to come, in ms. */
const PATIENCE_MS = 5000;

/** A chart as it is now, without holding it open; null where it does not come in time. */
export const loadedChart = (board: Board, id: string): Promise<ChartState | null> =>
  new Promise((answer) => {
    const handle = openChart(board, id);
    const done = (state: ChartState | null) => {
      clearTimeout(timer);
      stop();
      handle.release();
      answer(state);
    };
    const look = () => {
      const state = handle.chart.get();
      if (state) done(state);
    };
    const stop = handle.chart.subscribe(look);
    const timer = setTimeout(() => done(null), PATIENCE_MS);
    look();
  });
