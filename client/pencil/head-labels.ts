import type { HeadWord } from '../../common/chart/chart.ts';

/** What the lines of the header are called on the page. */
export const HEAD_LABELS: Readonly<Record<HeadWord, string>> = {
  title: 'title',
  by: 'by',
  key: 'concert key',
  time: 'time',
  tempo: 'tempo',
  feel: 'feel',
  count: 'count-in',
};
