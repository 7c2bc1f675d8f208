import { printChart } from '../../common/chart/print-chart.ts';
import { readChart } from '../../common/chart/read-chart.ts';
import type { MakeId } from '../../common/ids.ts';
import { failed, ok, type Result } from '../../common/result.ts';
import type { Board, ChartState } from '../state/board.ts';
import { putChart } from './put-chart.ts';

/** How long the chart may take to come, in ms. */
const PATIENCE_MS = 5000;

const loadedChart = (board: Board, id: string): Promise<ChartState | null> =>
  new Promise((answer) => {
    const handle = board.openChart(id);
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

/**
 * Puts a copy of a chart into the book, to be changed without changing the first one.
 * @returns the copy's id, or a sentence
 */
export const copyChart = async (
  board: Board,
  id: string,
  title: string,
  makeId: MakeId,
): Promise<Result<string, string>> => {
  const state = await loadedChart(board, id);
  if (!state) return failed('This tablet does not have that chart yet. Try again when the relay answers.');
  // Read anew, so that the copy's bars have ids of their own.
  const { chart } = readChart(printChart(state.chart), makeId);
  return ok(putChart(board, { ...chart, head: { ...chart.head, title } }, makeId));
};

/** A title for the copy that the book does not have yet: "Slow Ferry (2)". */
export const copyTitle = (title: string, taken: readonly string[]): string => {
  const bare = title.replace(/ \(\d+\)$/, '');
  for (let number = 2; ; number++) {
    const wanted = `${bare} (${number})`;
    if (!taken.includes(wanted)) return wanted;
  }
};
