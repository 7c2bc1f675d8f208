import { useEffect, useState } from 'react';
import type { Chart } from '../../common/chart/chart.ts';
import type { Board, ChartHandle } from '../state/board.ts';
import { type Observable, settable, useObservable } from '../state/observable.ts';

const NOT_OPEN: Observable<null> = settable(null);

/** The chart while somebody looks at it; null where none is asked for, and until it is here. */
export const useChart = (board: Board, id: string | null): Chart | null => {
  const [handle, setHandle] = useState<ChartHandle | null>(null);
  useEffect(() => {
    if (id === null) return;
    const opened = board.openChart(id);
    setHandle(opened);
    return () => {
      setHandle(null);
      opened.release();
    };
  }, [board, id]);
  const state = useObservable(handle !== null && handle.id === id ? handle.chart : NOT_OPEN);
  return state?.chart ?? null;
};
