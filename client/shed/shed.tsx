import { useMemo } from 'react';
import { readBars } from '../../common/chart/read-bars.ts';
import { useChart } from '../stand/use-chart.ts';
import { useBoard } from '../state/board-context.tsx';
import { openChart } from '../state/open-chart.ts';
import { Study } from './study.tsx';
import './shed.css';

/** The Shed: a player alone with a chart. */
export const Shed = ({ chart: id }: { readonly chart: string }) => {
  const board = useBoard();
  const state = useChart(board, id, openChart);
  const chart = state?.chart ?? null;
  const music = useMemo(() => (chart === null ? null : readBars(chart).music), [chart]);
  if (state === null || music === null) {
    return (
      <main className="page shed">
        <p className="dim">One moment …</p>
      </main>
    );
  }
  return <Study id={id} state={state} music={music} />;
};
