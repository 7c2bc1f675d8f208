import type { Chart } from '../chart/chart.ts';
import { keyTextOf, metreOf, tempoOf } from '../chart/head.ts';
import { roadLength } from '../form/length.ts';
import type { Road } from '../form/road.ts';
import { unroll } from '../form/unroll.ts';
import type { ChartEntry, ChartLength } from './book-document.ts';

/** Bars of one time through the form: of the leg that is left open, else of the longest one. */
const formBars = ({ legs }: Road): number => {
  const open = legs.find(({ passes }) => passes === 'open');
  return open?.bars.length ?? Math.max(0, ...legs.map(({ bars }) => bars.length));
};

/**
 * How long a chart is: one time through its form, and played by its road map with the usual assumptions
 * (`USUAL_ASSUMPTIONS`), without the count-in.
 */
export const chartLength = (chart: Chart): ChartLength => {
  const { road } = unroll(chart);
  const { ms, assumed } = roadLength(road);
  return { formBars: formBars(road), lengthMs: Math.round(ms), isAssumed: assumed };
};

/** What the book shows of a chart. */
export const chartEntryOf = (id: string, chart: Chart): ChartEntry => ({
  id,
  title: chart.head.title ?? '',
  by: chart.head.by ?? '',
  key: keyTextOf(chart),
  tempo: tempoOf(chart),
  isCompound: metreOf(chart).compound,
  length: chartLength(chart),
});
