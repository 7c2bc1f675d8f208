import { useEffect, useState } from 'react';
import type { ChartEntry, ChartLength } from '../../common/document/book-document.ts';
import { roadEntryOf } from '../../common/document/chart-entry.ts';
import { setChartEntry } from '../../common/document/edit-book.ts';
import { mayWrite } from '../../common/protocol/roles.ts';
import type { Board } from '../state/board.ts';
import { loadedChart } from './loaded-chart.ts';

/** Charts are looked at one after the other: a book of two hundred must not open two hundred documents at once. */
let queue: Promise<unknown> = Promise.resolve();

/**
 * How long a chart is. Entries made before lengths were kept are worked out from their chart, and kept by whoever may
 * write; undefined until then.
 */
export const useChartLength = (board: Board, entry: ChartEntry): ChartLength | undefined => {
  const [worked, setWorked] = useState<ChartLength>();
  const { id } = entry;
  const isKnown = entry.length !== undefined;
  useEffect(() => {
    if (isKnown) return;
    let isWanted = true;
    queue = queue.then(async () => {
      const state = isWanted ? await loadedChart(board, id) : null;
      if (state === null || !isWanted) return;
      const told = roadEntryOf(state.chart);
      setWorked(told.length);
      if (mayWrite(board.role, 'book')) setChartEntry(board.bookDoc, id, told);
    });
    return () => {
      isWanted = false;
    };
  }, [board, id, isKnown]);
  return entry.length ?? worked;
};
