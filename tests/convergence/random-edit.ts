import type * as Y from 'yjs';
import type { Chart } from '../../common/chart/chart.ts';
import { applyChart } from '../../common/document/apply-chart.ts';
import { readChartDocument } from '../../common/document/chart-document.ts';
import {
  addBar,
  addBars,
  addRoadLine,
  addSection,
  deleteBars,
  deleteRoadLine,
  deleteSection,
  duplicateBars,
  moveBars,
  moveRoadLine,
  moveSection,
  renameSection,
  setBarSigns,
  setBarText,
  setHead,
  setRoadLine,
} from '../../common/document/edit-chart.ts';
import { addSpot, bringBackSpot, deleteSpot, dismissSpot } from '../../common/document/edit-lost-spots.ts';
import { readLostSpotsSaid } from '../../common/document/lost-spots-said.ts';
import type { MakeId } from '../../common/ids.ts';

export interface Editor {
  readonly doc: Y.Doc;
  readonly makeId: MakeId;
  readonly random: () => number;
  /** Text that nobody else types. */
  readonly newText: () => string;
}

/** Texts that an edit put into the document, and the block of bars it pasted. */
export interface Typed {
  readonly texts: readonly string[];
  readonly block?: readonly string[];
}

const NOTHING: Typed = { texts: [] };

/** One edit as a person at this tablet might make it, of what they see there. */
export const randomEdit = (editor: Editor): Typed => {
  const edits = [
    typeInBar,
    typeInBar,
    typeInBar,
    addOne,
    paste,
    paste,
    moveSome,
    moveSome,
    duplicateSome,
    deleteSome,
    setSigns,
    editSections,
    editRoad,
    sayLostSpots,
    rewriteAsText,
    rewriteAsText,
  ];
  return pick(edits, editor.random)?.(editor) ?? NOTHING;
};

export const pick = <Item>(items: readonly Item[], random: () => number): Item | undefined =>
  items[Math.floor(random() * items.length)];

const chartOf = ({ doc }: Editor) => readChartDocument(doc);

const somewhere = (editor: Editor) => {
  const section = pick(chartOf(editor).sections, editor.random);
  if (!section) return null;
  const after = editor.random() < 0.2 ? null : (pick(section.bars, editor.random)?.id ?? null);
  return { section: section.id, after };
};

/** Some bars that stand side by side. */
const someBars = (editor: Editor): string[] => {
  const bars = pick(chartOf(editor).sections, editor.random)?.bars ?? [];
  const from = Math.floor(editor.random() * bars.length);
  return bars.slice(from, from + 1 + Math.floor(editor.random() * 3)).map(({ id }) => id);
};

const typeInBar = (editor: Editor): Typed => {
  const [bar] = someBars(editor);
  if (bar === undefined) return NOTHING;
  const text = editor.newText();
  setBarText(editor.doc, bar, text);
  return { texts: [text] };
};

const addOne = (editor: Editor): Typed => {
  const place = somewhere(editor);
  if (!place) return NOTHING;
  const text = editor.newText();
  addBar(editor.doc, place.section, place.after, text, editor.makeId);
  return { texts: [text] };
};

const paste = (editor: Editor): Typed => {
  const place = somewhere(editor);
  if (!place) return NOTHING;
  const texts = Array.from({ length: 2 + Math.floor(editor.random() * 3) }, editor.newText);
  const bars = texts.map((text) => ({ text }));
  const block = addBars(editor.doc, place.section, place.after, bars, editor.makeId);
  return { texts, block };
};

const moveSome = (editor: Editor): Typed => {
  const place = somewhere(editor);
  if (place) moveBars(editor.doc, someBars(editor), place.section, place.after, editor.makeId);
  return NOTHING;
};

const duplicateSome = (editor: Editor): Typed => {
  duplicateBars(editor.doc, someBars(editor), editor.makeId);
  return NOTHING;
};

const deleteSome = (editor: Editor): Typed => {
  deleteBars(editor.doc, someBars(editor));
  return NOTHING;
};

const setSigns = (editor: Editor): Typed => {
  const [bar] = someBars(editor);
  const right = pick(['', '||', ':|', ':|x3'], editor.random) ?? '';
  if (bar !== undefined) setBarSigns(editor.doc, bar, { right, lineEnd: editor.random() < 0.5 });
  return NOTHING;
};

const editSections = (editor: Editor): Typed => {
  const { doc, makeId, random } = editor;
  const section = pick(chartOf(editor).sections, random)?.id;
  const other = pick(chartOf(editor).sections, random)?.id ?? null;
  const kind = random();
  if (section === undefined || kind < 0.3) {
    const label = editor.newText();
    addSection(doc, label, other, makeId);
    return { texts: [label] };
  }
  if (kind < 0.5) deleteSection(doc, section);
  else if (kind < 0.7) moveSection(doc, section, other, makeId);
  else {
    const label = editor.newText();
    renameSection(doc, section, label);
    return { texts: [label] };
  }
  return NOTHING;
};

const editRoad = (editor: Editor): Typed => {
  const { doc, makeId, random } = editor;
  const line = pick(chartOf(editor).road, random)?.id;
  const other = pick(chartOf(editor).road, random)?.id ?? null;
  const kind = random();
  const name = editor.newText();
  if (line === undefined || kind < 0.3) {
    addRoadLine(doc, { name, sections: 'A', times: 'x2', words: '' }, other, makeId);
  } else if (kind < 0.6) setRoadLine(doc, line, { name });
  else {
    if (kind < 0.75) deleteRoadLine(doc, line);
    else if (kind < 0.9) moveRoadLine(doc, line, other, makeId);
    else setHead(doc, 'feel', name);
    return NOTHING;
  }
  return { texts: [name] };
};

/** What the writers say about lost spots: of a seam at some bars, or at some bars in words. */
const sayLostSpots = (editor: Editor): Typed => {
  const { doc, makeId, random } = editor;
  const { dismissed, added } = readLostSpotsSaid(doc);
  const bars = someBars(editor);
  const kind = random();
  if (kind < 0.4) dismissSpot(doc, `seam:${bars.join(' ')}`);
  else if (kind < 0.6) bringBackSpot(doc, pick(dismissed, random) ?? '');
  else if (kind < 0.75) deleteSpot(doc, pick(added, random)?.id ?? '');
  else {
    const words = editor.newText();
    addSpot(doc, { from: bars[0] ?? '', to: bars.at(-1) ?? '', words }, makeId);
    return { texts: [words] };
  }
  return NOTHING;
};

/** The whole chart as text: a bar rewritten, one added, one left out, a section turned round. */
const rewriteAsText = (editor: Editor): Typed => {
  const { random } = editor;
  const base = chartOf(editor);
  const at = Math.floor(random() * Math.max(1, base.sections.length));
  const [changed, added] = [editor.newText(), editor.newText()];
  const texts: string[] = [];
  let count = 0;
  const next: Chart = {
    ...base,
    // The ids of a text that was read anew say nothing about the document's.
    sections: base.sections.map((section, index) => {
      const bars = section.bars.map((bar) => ({ ...bar, id: `i${++count}` }));
      if (index !== at || bars.length === 0) return { ...section, id: `i${++count}`, bars };
      const bar = Math.floor(random() * bars.length);
      const [old] = bars.splice(bar, 1);
      if (old && random() < 0.7) {
        bars.splice(bar, 0, { ...old, text: changed });
        texts.push(changed);
      }
      if (old && random() < 0.5) {
        bars.push({ ...old, id: 'added', text: added });
        texts.push(added);
      }
      return { ...section, id: `i${++count}`, bars: random() < 0.2 ? bars.reverse() : bars };
    }),
    road: base.road.map((line) => ({ ...line, id: `i${++count}` })),
    lines: [],
  };
  applyChart(editor.doc, next, editor.makeId, undefined, base);
  return { texts };
};
