import type { Bar, Section } from '../../common/chart/chart.ts';
import { readChartDocument } from '../../common/document/chart-document.ts';
import {
  addBars,
  addSection,
  moveBars,
  renameSection,
  setBarSigns,
  setBarText,
} from '../../common/document/edit-chart.ts';
import type { ChartHandle } from '../state/chart-handle.ts';
import { makeId } from '../state/make-id.ts';
import { type BarAt, barAt } from './neighbours.ts';
import { splitName, type TypedBar, typedBars } from './typed-bars.ts';

/** Bars of a line where the writer has not ended one yet (common practice, no source). */
const USUAL_LINE = 4;

/** Bars of a line in this section: as many as its first has, four where no line follows another yet. */
const lineLength = ({ bars }: Section): number => {
  const end = bars.slice(0, -1).findIndex(({ lineEnd }) => lineEnd);
  return end === -1 ? USUAL_LINE : end + 1;
};

const isEmpty = ({ text, left, right, ending }: Bar): boolean =>
  text === '' && left === '' && right === '' && ending === '';

const typedSigns = ({ left, right, ending }: TypedBar): Partial<Omit<Bar, 'id'>> => ({
  ...(left === '' ? {} : { left }),
  ...(right === '' ? {} : { right }),
  ...(ending === '' ? {} : { ending }),
});

const barIn = (handle: ChartHandle, bar: string): BarAt | null => {
  const state = handle.chart.get();
  return state && barAt(state.chart, bar);
};

/**
 * Adds bars behind another and gives the last one's id. At the end of a section they go on in lines as long as the
 * section's first; elsewhere they belong to the line they are put into.
 */
export const addBarsAfter = (handle: ChartHandle, after: string, bars: readonly TypedBar[]): string => {
  const { doc, origin } = handle;
  const at = barIn(handle, after);
  if (!at) return after;
  const { section, index } = at;
  const wanted = lineLength(section);
  let inLine = index - section.bars.slice(0, index).findLastIndex(({ lineEnd }) => lineEnd);
  const isLast = index === section.bars.length - 1;
  const grown = bars.map((bar) => {
    const begins = isLast && inLine % wanted === 0;
    inLine = begins ? 1 : inLine + 1;
    return { bar, begins };
  });
  return doc.transact(() => {
    const added = grown.map(({ bar }, place) => ({
      ...bar,
      lineEnd: bar.lineEnd || grown[place + 1]?.begins === true,
    }));
    const ids = addBars(doc, section.id, after, added, makeId, origin);
    if (grown[0]?.begins) setBarSigns(doc, after, { lineEnd: true }, origin);
    return ids.at(-1) ?? after;
  }, origin);
};

/**
 * Begins a section at a bar: the bars from there to the end of its section go into it. Where one begins there already,
 * that is renamed.
 */
export const beginSection = ({ doc, origin }: ChartHandle, at: BarAt, name: string): void =>
  doc.transact(() => {
    const { section, index } = at;
    if (index === 0) return renameSection(doc, section.id, name, origin);
    const begun = addSection(doc, name, section.id, makeId, origin);
    const ids = section.bars.slice(index).map(({ id }) => id);
    moveBars(doc, ids, begun, null, makeId, origin);
  }, origin);

/**
 * Writes what was typed into a bar and gives the bar it ended in. A name in brackets begins a section there. Bar lines
 * make bars of their own: empty bars that follow are filled, else new ones are put in, and what closed the bar closes the
 * last of them. One step for undo.
 */
export const writeTyped = (handle: ChartHandle, bar: string, typed: string): string => {
  const { name, rest } = splitName(typed);
  const at = barIn(handle, bar);
  if (name === null || at === null) return writeBars(handle, bar, rest);
  return handle.doc.transact(() => {
    const last = writeBars(handle, bar, rest);
    beginSection(handle, barAt(readChartDocument(handle.doc), bar) ?? at, name);
    return last;
  }, handle.origin);
};

const writeBars = (handle: ChartHandle, bar: string, typed: string): string => {
  const { doc, origin } = handle;
  const [first, ...more] = typedBars(typed);
  const at = barIn(handle, bar);
  if (!first || !at) return bar;
  return doc.transact(() => {
    setBarText(doc, bar, first.text, origin);
    setBarSigns(doc, bar, typedSigns(first), origin);
    let last = bar;
    // What is typed on from the last bar of a repeat stays inside it.
    const isClosed = at.bar.right !== '' && first.right === '';
    const following = isClosed ? [] : at.section.bars.slice(at.index + 1);
    const filled = following.slice(0, more.length).findIndex((next) => !isEmpty(next));
    const toFill = following.slice(0, filled === -1 ? more.length : filled);
    toFill.forEach(({ id }, place) => {
      const next = more[place];
      if (!next) return;
      setBarText(doc, id, next.text, origin);
      setBarSigns(doc, id, typedSigns(next), origin);
      last = id;
    });
    const rest = more.slice(toFill.length);
    if (rest.length > 0) {
      last = addBarsAfter(handle, last, rest);
      if (isClosed) {
        setBarSigns(doc, bar, { right: '' }, origin);
        if (rest.at(-1)?.right === '') setBarSigns(doc, last, { right: at.bar.right }, origin);
      }
    }
    return last;
  }, origin);
};
