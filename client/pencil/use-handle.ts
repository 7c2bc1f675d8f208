import { useEffect, useState } from 'react';
import type { Board } from '../state/board.ts';
import type { ChartHandle } from '../state/chart-handle.ts';
import { openChart } from '../state/open-chart.ts';

/** The chart's document, held open while the page looks at it. */
export const useHandle = (board: Board, chart: string): ChartHandle | null => {
  const [handle, setHandle] = useState<ChartHandle | null>(null);
  useEffect(() => {
    const opened = openChart(board, chart);
    setHandle(opened);
    return () => {
      setHandle(null);
      opened.release();
    };
  }, [board, chart]);
  return handle?.id === chart ? handle : null;
};
