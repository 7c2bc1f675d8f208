import { readBarText } from '../../common/chart/bar-text.ts';
import {
  type Bar,
  type Chart,
  HEAD_WORDS,
  type HeadWord,
  type RoadLine,
  type Section,
} from '../../common/chart/chart.ts';
import { type Found, spotKey } from '../../common/chart/found.ts';
import { readLegLine } from '../../common/chart/leg-line.ts';
import { printChart } from '../../common/chart/print-chart.ts';
import { readChart } from '../../common/chart/read-chart.ts';
import { applyChart } from '../../common/document/apply-chart.ts';
import {
  renameSection,
  setBarSigns,
  setBarText,
  setHead,
  setRoadLine,
} from '../../common/document/edit-chart.ts';
import { problemsOf } from '../../common/form/to-look-at.ts';
import type { ChartHandle } from '../state/chart-handle.ts';
import { makeId } from '../state/make-id.ts';
import { barsInOrder } from './neighbours.ts';
import { mendText } from './understood.ts';

/** What a suggestion changes, written so that only that is changed. */
export type Mend =
  | { readonly what: 'head'; readonly word: HeadWord; readonly value: string }
  | { readonly what: 'section'; readonly id: string; readonly label: string }
  | { readonly what: 'bar'; readonly id: string; readonly fields: Partial<Omit<Bar, 'id'>> }
  | { readonly what: 'road'; readonly id: string; readonly fields: Partial<Omit<RoadLine, 'id'>> }
  /** Lines that could not be read: the chart as it reads with them rewritten. */
  | { readonly what: 'lines'; readonly chart: Chart };

/** The chart with a suggestion taken. */
export const mended = (chart: Chart, mend: Mend): Chart => {
  switch (mend.what) {
    case 'head':
      return { ...chart, head: { ...chart.head, [mend.word]: mend.value } };
    case 'lines':
      return mend.chart;
    case 'road':
      return {
        ...chart,
        road: chart.road.map((line) => (line.id === mend.id ? { ...line, ...mend.fields } : line)),
      };
    case 'section':
      return {
        ...chart,
        sections: chart.sections.map((section) =>
          section.id === mend.id ? { ...section, label: mend.label } : section,
        ),
      };
    case 'bar': {
      const mendBar = (bar: Bar): Bar => (bar.id === mend.id ? { ...bar, ...mend.fields } : bar);
      return {
        ...chart,
        sections: chart.sections.map((section): Section => ({ ...section, bars: section.bars.map(mendBar) })),
      };
    }
  }
};

/** Writes a suggestion that was taken: one step for undo. */
export const writeMend = ({ doc, origin }: ChartHandle, chart: Chart, mend: Mend): void =>
  doc.transact(() => {
    if (mend.what === 'head') setHead(doc, mend.word, mend.value, origin);
    else if (mend.what === 'section') renameSection(doc, mend.id, mend.label, origin);
    else if (mend.what === 'road') setRoadLine(doc, mend.id, mend.fields, origin);
    else if (mend.what === 'lines') applyChart(doc, mend.chart, makeId, origin, chart);
    else {
      const { text, ...signs } = mend.fields;
      if (text !== undefined) setBarText(doc, mend.id, text, origin);
      setBarSigns(doc, mend.id, signs, origin);
    }
  }, origin);

/** Suggestions that show how such a line is written, not what this one was to say. */
const EXAMPLES = new Set(['empty-road', 'unreadable-road-line']);

/**
 * How a problem's suggestion would be taken; null where there is none, or where taking it would not help.
 * @param all everything there is to look at in the chart
 */
export const mendFor = (chart: Chart, problem: Found, all: readonly Found[]): Mend | null => {
  const { suggestion, kind } = problem;
  if (suggestion === undefined || EXAMPLES.has(kind)) return null;
  const ofKind = (some: readonly Found[]) => some.filter((one) => one.kind === kind).length;
  const helps = (mend: Mend): boolean => {
    const after = problemsOf(mended(chart, mend));
    return after.length <= all.length && ofKind(after) < ofKind(all);
  };
  return candidates(chart, problem, suggestion).find(helps) ?? null;
};

const candidates = (chart: Chart, problem: Found, suggestion: string): Mend[] => {
  const { id, at } = problem;
  const word = HEAD_WORDS.find((one) => at === spotKey('head', one));
  if (word !== undefined) return [{ what: 'head', word, value: suggestion }];
  const bar = barsInOrder(chart).find((one) => one.bar.id === id)?.bar;
  if (bar) return barMends(bar, problem, suggestion);
  const section = chart.sections.find((one) => one.id === id);
  if (section) {
    const label = /^\[(.*)\]$/.exec(suggestion)?.[1];
    return label === undefined ? [] : [{ what: 'section', id: section.id, label }];
  }
  const line = chart.road.find((one) => one.id === id);
  if (line) return roadMends(line, problem, suggestion);
  if (!chart.lines.some((one) => one.id === id)) return [];
  // A kept line that is printed stays one that is kept: what it becomes is put into the text.
  const mark = `note: ${makeId()}`;
  const lines = chart.lines.map((one) => (one.id === id ? { ...one, text: mark } : one));
  const text = printChart({ ...chart, lines }).replace(mark, () => suggestion);
  return [{ what: 'lines', chart: readChart(text, makeId).chart }];
};

const barMends = (bar: Bar, problem: Found, suggestion: string): Mend[] => {
  const { id } = bar;
  if (problem.at === spotKey(id, 'right')) return [{ what: 'bar', id, fields: { right: suggestion } }];
  const ending = /^\|((?:\d+\.)+)$/.exec(suggestion)?.[1];
  if (problem.at === spotKey(id, 'ending') && ending !== undefined) {
    return [{ what: 'bar', id, fields: { ending } }];
  }
  if (ending !== undefined) {
    // A figure that stands first in the bar was to be the number of an ending.
    const [first, ...rest] = readBarText(bar.text);
    if (!first || problem.at !== spotKey(id, 0)) return [];
    return [{ what: 'bar', id, fields: { ending, text: rest.map(({ text }) => text).join(' ') } }];
  }
  const text = mendText(bar.text, id, problem);
  return text === undefined ? [] : [{ what: 'bar', id, fields: { text } }];
};

/** The line of the road map with the word that is quoted replaced (times with the section before them), or said anew. */
const roadMends = (line: RoadLine, problem: Found, suggestion: string): Mend[] => {
  const { id } = line;
  if (problem.kind === 'unclosed-quote')
    return [{ what: 'road', id, fields: { words: line.words.slice(1) } }];
  const quoted = /“([^”]+)”/.exec(problem.words)?.[1] ?? '';
  const read = (sectionsAndTimes: string): Mend[] => {
    const plain = `x: ${sectionsAndTimes}`;
    const leg = readLegLine({ raw: plain, plain, line: 1, column: 1 });
    return leg === null ? [] : [{ what: 'road', id, fields: { sections: leg.sections, times: leg.times } }];
  };
  const all = [line.sections, line.times].filter((part) => part !== '').join(' ');
  const tokens = all.split(' ');
  const width = quoted.split(' ').length;
  const at = tokens.findIndex((_, from) => tokens.slice(from, from + width).join(' ') === quoted);
  const replaced = (from: number): string =>
    [...tokens.slice(0, from), suggestion, ...tokens.slice(at + width)].join(' ');
  const from = problem.kind === 'times-in-the-middle' ? at - 1 : at;
  return [...(at >= 0 && from >= 0 ? read(replaced(from)) : []), ...read(suggestion)];
};
