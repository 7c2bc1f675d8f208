import type { BarMusic, Cell } from '../../../common/chart/bar-music.ts';
import type { Bar } from '../../../common/chart/chart.ts';
import { printChart } from '../../../common/chart/print-chart.ts';
import { readBars } from '../../../common/chart/read-bars.ts';
import { readChart } from '../../../common/chart/read-chart.ts';

/** All bars of a text, in order. */
export const barsOf = (text: string): readonly Bar[] =>
  readChart(text).chart.sections.flatMap(({ bars }) => bars);

/** Each bar in short: `|: ` or an ending before its text, its right sign behind it. */
export const shortBars = (text: string): string[] =>
  barsOf(text).map(({ left, ending, text: inside, right }) =>
    [left, ending, inside, right].filter((part) => part !== '').join(' '),
  );

export const musicOf = (text: string): BarMusic[] => {
  const { chart } = readChart(text);
  const { music } = readBars(chart);
  return chart.sections.flatMap(({ bars }) => bars.flatMap(({ id }) => music.get(id) ?? []));
};

/** `C7@0+2`, with `<` for a push and `~` where it goes on from the bar before. */
const shortCell = ({ kind, symbol, atPulse, lengthPulses, pushed, carried }: Cell): string => {
  const name = { chord: symbol, rest: 'rest', noChord: 'none', unknown: `?${symbol}` }[kind];
  return `${carried ? '~' : ''}${pushed ? '<' : ''}${name}@${atPulse}+${lengthPulses}`;
};

export const shortCells = (text: string): string[] =>
  musicOf(text).map(({ cells }) => cells.map(shortCell).join(' '));

/** Cells of the last bar. */
export const lastCells = (text: string): string => shortCells(text).at(-1) ?? '';

export const problemsOf = (text: string) => readChart(text).problems;

/** `kind line:column` of each problem. */
export const shortProblems = (text: string): string[] =>
  problemsOf(text).map(({ kind, line, column }) => `${kind} ${line}:${column}`);

export const printed = (text: string): string => printChart(readChart(text).chart);
