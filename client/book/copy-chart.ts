import { printChart } from '../../common/chart/print-chart.ts';
import { readChart } from '../../common/chart/read-chart.ts';
import type { MakeId } from '../../common/ids.ts';
import { failed, ok, type Result } from '../../common/result.ts';
import type { Board } from '../state/board.ts';
import { loadedChart } from './loaded-chart.ts';
import { putChart } from './put-chart.ts';

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
