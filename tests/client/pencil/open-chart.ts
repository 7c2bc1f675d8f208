import { type Editing, openEditing } from '../../../client/pencil/editing.ts';
import { barsInOrder } from '../../../client/pencil/neighbours.ts';
import type { AtHand } from '../../../client/pencil/tool.ts';
import type { ChartHandle } from '../../../client/state/chart-handle.ts';
import { openChart as openOn } from '../../../client/state/open-chart.ts';
import type { Chart } from '../../../common/chart/chart.ts';
import { printChart } from '../../../common/chart/print-chart.ts';
import { readChart } from '../../../common/chart/read-chart.ts';
import { writeChartDocument } from '../../../common/document/write-chart-document.ts';
import { settled, smallBand } from '../state/small-band.ts';

/** One of several who have a chart open. */
export interface Writer {
  readonly handle: ChartHandle;
  readonly editing: Editing;
  readonly chart: () => Chart;
  /** Id of a bar, counted from 0 through the chart. */
  readonly bar: (at: number) => string;
  /** The texts of the bars, section by section. */
  readonly texts: () => string[];
  /** The music as it would be printed. */
  readonly music: () => string;
  readonly atHand: (...bars: number[]) => AtHand;
  readonly stop: () => void;
}

/** Ines and Tomas with one chart open on both tablets, without a network. */
export const openChart = async (text: string): Promise<{ readonly ines: Writer; readonly tomas: Writer }> => {
  const band = smallBand();
  writeChartDocument(band.document('chart.c1'), readChart(text).chart);
  const join = (name: string): Writer => {
    const handle = openOn(band.join(name, 'player').board, 'c1');
    const editing = openEditing(handle);
    const chart = (): Chart => {
      const state = handle.chart.get();
      if (state === null) throw new Error('the chart has not been loaded');
      return state.chart;
    };
    const bar = (at: number) => barsInOrder(chart())[at]?.bar.id ?? '';
    return {
      handle,
      editing,
      chart,
      bar,
      texts: () => chart().sections.map(({ bars }) => bars.map((one) => one.text || '-').join(' ')),
      music: () => printChart({ ...chart(), head: {}, road: [] }),
      atHand: (...bars) => ({ handle, chart: chart(), chosen: bars.map(bar) }),
      stop: editing.watch(),
    };
  };
  const both = { ines: join('Ines'), tomas: join('Tomas') };
  await settled();
  return both;
};
