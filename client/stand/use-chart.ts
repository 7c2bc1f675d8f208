import { useEffect, useState } from 'react';
import type { Board } from '../state/board.ts';
import type { ChartHandle, ChartState } from '../state/chart-handle.ts';
import { type Observable, settable, useObservable } from '../state/observable.ts';
import type { openChart } from '../state/open-chart.ts';

const NOT_OPEN: Observable<null> = settable(null);

/**
 * The chart, and what is said of its lost spots, while somebody looks at it; null where none is asked for, and until it is here.
 * @param open what opens it; undefined until that is loaded
 */
export const useChart = (board: Board, id: string | null, open?: typeof openChart): ChartState | null => {
  const [handle, setHandle] = useState<ChartHandle | null>(null);
  useEffect(() => {
    if (id === null || open === undefined) return;
    const opened = open(board, id);
    setHandle(opened);
    return () => {
      setHandle(null);
      opened.release();
    };
  }, [board, id, open]);
  return useObservable(handle !== null && handle.id === id ? handle.chart : NOT_OPEN);
};
