import type { Chart } from '../chart/chart.ts';
import { findProblems } from '../chart/check-chart.ts';
import type { Found } from '../chart/found.ts';
import { unroll } from './unroll.ts';

/** Everything to look at in a chart, that of the road map included, each with the place it is at. */
export const problemsOf = (chart: Chart): Found[] => [
  ...findProblems(chart),
  ...unroll(chart).problems.map((problem) => ({ ...problem, at: problem.id ?? '' })),
];

/** So many empty bars are a chart that is being written, and one thing to look at. */
const MANY = 3;

/** What is shown one by one, and the empty bars that are shown as one. */
export interface ToLookAt {
  readonly problems: readonly Found[];
  /** Their ids; none where there are few. */
  readonly emptyBars: readonly string[];
  /** How many things there are to look at. */
  readonly count: number;
}

/** The problems of a chart as they are shown to people. */
export const toLookAt = (found: readonly Found[]): ToLookAt => {
  const empty = found.filter(({ kind }) => kind === 'empty-bar');
  if (empty.length < MANY) return { problems: found, emptyBars: [], count: found.length };
  const problems = found.filter(({ kind }) => kind !== 'empty-bar');
  return { problems, emptyBars: empty.map(({ id = '' }) => id), count: problems.length + 1 };
};
