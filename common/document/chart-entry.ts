import type { Chart } from '../chart/chart.ts';
import { keyTextOf, metreOf, tempoOf } from '../chart/head.ts';
import { formBars } from '../form/chorus.ts';
import { roadLength } from '../form/length.ts';
import { unroll } from '../form/unroll.ts';
import type { ChartEntry, ChartLength } from './book-document.ts';

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
