import type { Chart } from '../chart/chart.ts';
import { keyTextOf, metreOf, tempoOf } from '../chart/head.ts';
import { formBars } from '../form/chorus.ts';
import { roadLength } from '../form/length.ts';
import { unroll } from '../form/unroll.ts';
import type { ChartEntry } from './book-document.ts';

/** What the book says of a chart and only its road tells. */
export type RoadEntry = Required<Pick<ChartEntry, 'length' | 'isCompound'>>;

/**
 * How long a chart is: one time through its form, and played by its road map with the usual assumptions
 * (`USUAL_ASSUMPTIONS`), without the count-in; and whether the bar with which it begins goes by dotted pulses, be its
 * metre that of the header or written over the bar.
 */
export const roadEntryOf = (chart: Chart): RoadEntry => {
  const { road } = unroll(chart);
  const { ms, assumed } = roadLength(road);
  const metre = road.legs[0]?.bars[0]?.content.music.metre ?? metreOf(chart);
  return {
    length: { formBars: formBars(road), lengthMs: Math.round(ms), isAssumed: assumed },
    isCompound: metre.compound,
  };
};

/** What the book shows of a chart. */
export const chartEntryOf = (id: string, chart: Chart): ChartEntry => ({
  id,
  title: chart.head.title ?? '',
  by: chart.head.by ?? '',
  key: keyTextOf(chart),
  tempo: tempoOf(chart),
  ...roadEntryOf(chart),
});
