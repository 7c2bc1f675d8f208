import type { Chart } from './chart.ts';
import { checkHead } from './check-head.ts';
import { checkLines } from './check-lines.ts';
import { checkRepeats } from './check-repeats.ts';
import { checkSections } from './check-sections.ts';
import type { Found } from './found.ts';
import type { Problem } from './problem.ts';
import { resolveBars } from './read-bars.ts';

/**
 * Everything in a chart that can't be taken as written, with the ids of the parts it is in, but for what the
 * road map asks for: that the form knows. The same as `readChart` reports for its text.
 */
export const checkChart = (chart: Chart): Problem[] =>
  findProblems(chart).map(({ at: _, ...problem }) => problem);

/** As `checkChart`, with the part of the text that each problem is at. */
export const findProblems = (chart: Chart): Found[] => [
  ...checkHead(chart.head),
  ...checkSections(chart.sections),
  ...chart.sections.flatMap(({ bars }) => checkRepeats(bars)),
  ...resolveBars(chart).found,
  ...checkLines(chart),
];
