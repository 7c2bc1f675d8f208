import type { Chart } from '../../common/chart/chart.ts';
import { chartEntryOf } from '../../common/document/chart-entry.ts';
import { addChart } from '../../common/document/edit-book.ts';
import { writeChartDocument } from '../../common/document/write-chart-document.ts';
import type { MakeId } from '../../common/ids.ts';
import type { Board } from '../state/board.ts';
import { openChart } from '../state/open-chart.ts';

/**
 * Writes a chart into a document of its own and enters it in the book. What is not yet at the relay goes there
 * when it answers.
 * @returns the new chart's id
 */
export const putChart = (board: Board, chart: Chart, makeId: MakeId): string => {
  const id = makeId();
  const handle = openChart(board, id);
  writeChartDocument(handle.doc, chart, handle.origin);
  addChart(board.bookDoc, chartEntryOf(id, chart));
  handle.release();
  return id;
};
