import type { Chart } from '../../common/chart/chart.ts';

/** A chart's text that was being rewritten when the page was left, and the chart it was begun from. */
export interface UnfinishedText {
  readonly base: Chart;
  readonly text: string;
}

/** By chart id, as long as this page is loaded: going to the stand and back loses nothing. */
const unfinished = new Map<string, UnfinishedText>();

export const unfinishedText = (chart: string): UnfinishedText | null => unfinished.get(chart) ?? null;

/** Keeps a text; null forgets it. */
export const keepUnfinished = (chart: string, text: UnfinishedText | null): void => {
  if (text === null) unfinished.delete(chart);
  else unfinished.set(chart, text);
};
