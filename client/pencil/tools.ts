import type { Bar, Chart } from '../../common/chart/chart.ts';
import {
  addBar,
  addSection,
  deleteBars,
  duplicateBars,
  moveBars,
  setBarSigns,
  setBarText,
} from '../../common/document/edit-chart.ts';
import type { TradeSignName } from '../engraving/trade-sign.tsx';
import type { ChartHandle } from '../state/board.ts';
import { makeId } from '../state/make-id.ts';
import { barsInOrder, freeLetter } from './neighbours.ts';

/** What the tools work on. */
export interface AtHand {
  readonly handle: ChartHandle;
  readonly chart: Chart;
  /** Chosen bars in the order of the chart; a tool that needs some is off without any. */
  readonly chosen: readonly string[];
}

export interface Tool {
  readonly id: string;
  readonly name: string;
  readonly sign: TradeSignName | null;
  /** A sign of plain type where the trade has none of its own. */
  readonly letter?: string;
  /** Works on bars that are chosen. */
  readonly needsBars: boolean;
  /** Gives the bar to go on typing in, where there is one. */
  readonly use: (at: AtHand) => string | null;
}

const chosenBars = ({ chart, chosen }: AtHand): readonly Bar[] =>
  barsInOrder(chart).flatMap(({ bar }) => (chosen.includes(bar.id) ? [bar] : []));

/** Puts words before a bar's text, or takes them away where they stand there. */
const toggleWord = (text: string, word: string): string => {
  const quoted = `"${word}"`;
  return text.includes(quoted) ? text.replace(quoted, '').trim() : `${quoted} ${text}`.trim();
};

const wordTool = (word: string, name: string, sign: TradeSignName): Tool => ({
  id: word,
  name,
  sign,
  needsBars: true,
  use: (at) => {
    const { doc, origin } = at.handle;
    doc.transact(() => {
      for (const { id, text } of chosenBars(at)) setBarText(doc, id, toggleWord(text, word), origin);
    }, origin);
    return null;
  },
});

const NEXT_ENDING: Readonly<Record<string, string>> = { '': '1.', '1.': '2.', '2.': '3.', '3.': '' };

/** A sign on the first or the last of the chosen bars, put there or taken away. */
const signTool = (
  id: string,
  name: string,
  sign: TradeSignName | null,
  end: 'first' | 'last',
  change: (bar: Bar) => Partial<Pick<Bar, 'left' | 'right' | 'ending' | 'lineEnd'>>,
  letter?: string,
): Tool => ({
  id,
  name,
  sign,
  ...(letter === undefined ? {} : { letter }),
  needsBars: true,
  use: (at) => {
    const bar = chosenBars(at).at(end === 'first' ? 0 : -1);
    if (bar !== undefined) setBarSigns(at.handle.doc, bar.id, change(bar), at.handle.origin);
    return null;
  },
});

/** Bars moved by one place; over the end of a section they go into the next one. */
const moveTool = (id: string, name: string, letter: string, by: 1 | -1): Tool => ({
  id,
  name,
  sign: null,
  letter,
  needsBars: true,
  use: (at) => {
    const all = barsInOrder(at.chart);
    const chosen = all.filter(({ bar }) => at.chosen.includes(bar.id));
    const edge = by < 0 ? chosen[0] : chosen.at(-1);
    if (edge === undefined) return null;
    const beside = all[all.indexOf(edge) + by];
    if (beside === undefined) return null;
    const section = beside.section;
    const after = by > 0 ? beside.bar.id : (section.bars[beside.index - 1]?.id ?? null);
    moveBars(at.handle.doc, at.chosen, section.id, after, makeId, at.handle.origin);
    return null;
  },
});

/** The tools at the foot of the pencil, in their places. */
export const TOOLS: readonly Tool[] = [
  {
    id: 'barAfter',
    name: 'bar after',
    sign: null,
    letter: '|',
    needsBars: false,
    use: ({ handle, chart, chosen }) => {
      const all = barsInOrder(chart);
      const at = all.filter(({ bar }) => chosen.includes(bar.id)).at(-1) ?? all.at(-1);
      const section = at?.section.id ?? chart.sections.at(-1)?.id;
      const { doc, origin } = handle;
      const into = section ?? addSection(doc, 'A', null, makeId, origin);
      return addBar(doc, into, at?.bar.id ?? null, '', makeId, origin);
    },
  },
  {
    id: 'duplicate',
    name: 'duplicate',
    sign: null,
    letter: '‖+',
    needsBars: true,
    use: ({ handle, chosen }) => {
      duplicateBars(handle.doc, chosen, makeId, handle.origin);
      return null;
    },
  },
  {
    id: 'delete',
    name: 'delete',
    sign: null,
    letter: '✕',
    needsBars: true,
    use: ({ handle, chosen }) => {
      deleteBars(handle.doc, chosen, handle.origin);
      return null;
    },
  },
  moveTool('earlier', 'earlier', '←', -1),
  moveTool('later', 'later', '→', 1),
  {
    id: 'repeatBar',
    name: 'repeat bar',
    sign: 'repeatBar',
    needsBars: true,
    use: (at) => {
      const { doc, origin } = at.handle;
      doc.transact(() => {
        for (const { id } of chosenBars(at)) setBarText(doc, id, '%', origin);
      }, origin);
      return null;
    },
  },
  {
    id: 'repeat',
    name: 'repeat',
    sign: 'repeatStart',
    needsBars: true,
    use: (at) => {
      const bars = chosenBars(at);
      const [first, last] = [bars[0], bars.at(-1)];
      if (first === undefined || last === undefined) return null;
      const on = first.left === '|:' && last.right.startsWith(':|');
      const { doc, origin } = at.handle;
      doc.transact(() => {
        setBarSigns(doc, first.id, { left: on ? '' : '|:' }, origin);
        setBarSigns(doc, last.id, { right: on ? '' : ':|' }, origin);
      }, origin);
      return null;
    },
  },
  signTool(
    'ending',
    'ending',
    null,
    'first',
    ({ ending }) => ({ ending: NEXT_ENDING[ending] ?? '' }),
    '1. 2.',
  ),
  signTool('double', 'double bar', 'doubleBar', 'last', ({ right }) => ({
    right: right === '||' ? '' : '||',
  })),
  signTool('final', 'end', 'finalBar', 'last', ({ right }) => ({ right: right === '|]' ? '' : '|]' })),
  signTool('line', 'line end', null, 'last', ({ lineEnd }) => ({ lineEnd: !lineEnd }), '↵'),
  wordTool('break', 'break', 'quarterRest'),
  wordTool('fill', 'fill', 'quarter'),
  wordTool('hold', 'hold', 'fermata'),
  {
    id: 'section',
    name: 'section',
    sign: null,
    letter: 'A',
    needsBars: false,
    use: ({ handle, chart, chosen }) => {
      const { doc, origin } = handle;
      const at = barsInOrder(chart).find(({ bar }) => chosen.includes(bar.id));
      const letter = freeLetter(chart);
      doc.transact(() => {
        const after = at?.section.id ?? chart.sections.at(-1)?.id ?? null;
        const section = addSection(doc, letter, after, makeId, origin);
        const rest = at?.section.bars.slice(at.index).map(({ id }) => id) ?? [];
        if (rest.length > 0) moveBars(doc, rest, section, null, makeId, origin);
        else addBar(doc, section, null, '', makeId, origin);
      }, origin);
      return null;
    },
  },
];
