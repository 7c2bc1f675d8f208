import type { Chart } from '../../common/chart/chart.ts';
import type { Problem } from '../../common/chart/problem.ts';

/**
 * The offset of a place in a text.
 * @param line from 1; beyond the end: the end
 * @param column from 1, in UTF-16 units; beyond the line's end: the line's end
 */
export const placeInText = (text: string, line: number, column: number): number => {
  let start = 0;
  for (let at = 1; at < line; at++) {
    const end = text.indexOf('\n', start);
    if (end < 0) return text.length;
    start = end + 1;
  }
  const end = text.indexOf('\n', start);
  return Math.min(start + column - 1, end < 0 ? text.length : end);
};

/**
 * Problems of the road map are found in the chart, not in its text: this gives them the line on which their leg
 * was typed. Legs of one name are told apart by their order.
 */
export const withRoadLines = (text: string, chart: Chart, problems: readonly Problem[]): Problem[] => {
  const lines = text.split('\n');
  const roadAt = lines.findIndex((line) => /^\s*road\s*:/i.test(line));
  const lineOf = new Map<string, number>();
  let from = roadAt;
  for (const { id, name } of chart.road) {
    const at = lines.findIndex(
      (line, index) =>
        index >= from &&
        line
          .replace(/^\s*road\s*:/i, '')
          .trim()
          .startsWith(name),
    );
    if (roadAt < 0 || at < 0) continue;
    lineOf.set(id, at + 1);
    from = at + 1;
  }
  return problems.map((problem) => {
    const line = problem.id === undefined ? undefined : lineOf.get(problem.id);
    if (problem.line !== undefined || line === undefined) return problem;
    const column = (lines[line - 1]?.search(/\S/) ?? 0) + 1;
    return { ...problem, line, column };
  });
};
