import { useEffect, useState } from 'react';
import type { Chart } from '../../common/chart/chart.ts';
import type { Board } from '../state/board.ts';
import type { ChartHandle } from '../state/chart-handle.ts';
import { type Observable, settable, useObservable } from '../state/observable.ts';
import type { openChart } from '../state/open-chart.ts';

const NOT_OPEN: Observable<null> = settable(null);

/**
 * The chart while somebody looks at it; null where none is asked for, and until it is here.
 * @param open what opens it; undefined until that is loaded
 */
export const useChart = (board: Board, id: string | null, open?: typeof openChart): Chart | null => {
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
  const state = useObservable(handle !== null && handle.id === id ? handle.chart : NOT_OPEN);
  return state?.chart ?? null;
};
