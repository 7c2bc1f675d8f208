import type * as Y from 'yjs';
import {
  type Bar,
  type Chart,
  HEAD_WORDS,
  type KeptLine,
  type RoadLine,
  type Section,
} from '../chart/chart.ts';
import {
  isDeleted,
  markDeleted,
  unmarkDeleted,
  WATCHED_IN_BARS,
  WATCHED_IN_LINES,
  WATCHED_IN_ROAD,
  WATCHED_IN_SECTIONS,
  type Watched,
} from './deletion.ts';
import {
  asText,
  type Entry,
  editableEntry,
  entriesOf,
  field,
  setFields,
  textField,
  writeEntry,
} from './entry.ts';
import { keptLinePlaces } from './kept-line-places.ts';
import { byOrder, firstOrderKeys, type Ordered } from './order-key.ts';
import { stampSchema } from './schema-version.ts';

/** Id and label of the section that keeps bars whose own section is gone: deleted by one while another wrote into it. */
export const RECOVERED = 'recovered';

export const headOf = (doc: Y.Doc) => doc.getMap<unknown>('head');
export const sectionsOf = (doc: Y.Doc) => doc.getMap<unknown>('sections');
export const barsOf = (doc: Y.Doc) => doc.getMap<unknown>('bars');
export const linesOf = (doc: Y.Doc) => doc.getMap<unknown>('lines');
export const roadOf = (doc: Y.Doc) => doc.getMap<unknown>('road');

/**
 * Reads the chart that everybody who has the same changes reads, in whatever order they came. Every bar stands
 * in exactly one section; fields that are missing or odd are read as empty. Never throws.
 * Law: after `writeChartDocument(doc, chart)`, `readChartDocument(doc)` equals `chart`.
 */
export const readChartDocument = (doc: Y.Doc): Chart => {
  const sections = readSections(doc);
  const road = readRoad(doc);
  return { head: readHead(doc), sections, road, lines: readLines(doc, sections, road) };
};

const readHead = (doc: Y.Doc): Chart['head'] => {
  const head: Partial<Record<(typeof HEAD_WORDS)[number], string>> = {};
  for (const word of HEAD_WORDS) {
    const value = asText(headOf(doc).get(word));
    if (value !== undefined) head[word] = value;
  }
  return head;
};

const withOrder = ([id, entry]: [string, Entry]) => ({ id, entry, order: textField(entry, 'order') });

/** The living entries of a map in order. */
export const livingEntries = (
  map: Y.Map<unknown>,
  watched: Watched,
): (Ordered & { readonly entry: Entry })[] =>
  entriesOf(map)
    .filter(([, entry]) => !isDeleted(entry, watched))
    .map(withOrder)
    .sort(byOrder);

const readSections = (doc: Y.Doc): Section[] => {
  const sections = livingEntries(sectionsOf(doc), WATCHED_IN_SECTIONS);
  const barsBySection = new Map<string, Bar[]>(sections.map(({ id }) => [id, []]));
  const homeless: (Ordered & { readonly section: string; readonly bar: Bar })[] = [];
  for (const { id, order, entry } of livingEntries(barsOf(doc), WATCHED_IN_BARS)) {
    const section = textField(entry, 'section');
    const bars = barsBySection.get(section);
    if (bars) bars.push(readBar(id, entry));
    else homeless.push({ id, order, section, bar: readBar(id, entry) });
  }
  // Bars of one lost section stay together and in order.
  homeless.sort((a, b) => (a.section < b.section ? -1 : a.section > b.section ? 1 : 0));
  barsBySection.get(RECOVERED)?.push(...homeless.map(({ bar }) => bar));
  const read: Section[] = sections.map(({ id, entry }) => ({
    id,
    label: textField(entry, 'label'),
    bars: barsBySection.get(id) ?? [],
  }));
  if (homeless.length > 0 && !barsBySection.has(RECOVERED)) {
    read.push({ id: RECOVERED, label: RECOVERED, bars: homeless.map(({ bar }) => bar) });
  }
  return read;
};

const readBar = (id: string, entry: Entry): Bar => {
  const right = textField(entry, 'right');
  const ending = textField(entry, 'ending');
  return {
    id,
    text: textField(entry, 'text'),
    left: textField(entry, 'left') === '|:' ? '|:' : '',
    right: /^(\|\||\|\]|:\|(x\d+)?)$/.test(right) ? right : '',
    ending: /^(\d+\.)+$/.test(ending) ? ending : '',
    lineEnd: field(entry, 'lineEnd') === true,
  };
};

const readRoad = (doc: Y.Doc): RoadLine[] =>
  livingEntries(roadOf(doc), WATCHED_IN_ROAD).map(({ id, entry }) => ({
    id,
    name: textField(entry, 'name'),
    sections: textField(entry, 'sections'),
    times: textField(entry, 'times'),
    words: textField(entry, 'words'),
  }));

const readLines = (doc: Y.Doc, sections: readonly Section[], road: readonly RoadLine[]): KeptLine[] => {
  const lines = livingEntries(linesOf(doc), WATCHED_IN_LINES).map(({ id, entry }) => ({
    id,
    text: textField(entry, 'text'),
    after: textField(entry, 'after'),
  }));
  return keptLinePlaces(doc, lines, sections, road);
};

/**
 * Makes the document hold this chart, ids included, in one transaction: for a new chart. Where the document
 * holds something already, `applyChart` is kinder to what others are typing.
 */
export const writeChartDocument = (doc: Y.Doc, chart: Chart, origin?: unknown): void =>
  doc.transact(() => {
    stampSchema(doc);
    setFields(headOf(doc), Object.fromEntries(HEAD_WORDS.map((word) => [word, chart.head[word]])));
    writeAll(
      sectionsOf(doc),
      WATCHED_IN_SECTIONS,
      chart.sections.map(({ id, label }) => ({ id, label })),
    );
    writeAll(
      barsOf(doc),
      WATCHED_IN_BARS,
      chart.sections.flatMap((section) => section.bars.map((bar) => ({ ...bar, section: section.id }))),
    );
    writeAll(roadOf(doc), WATCHED_IN_ROAD, chart.road);
    writeAll(linesOf(doc), WATCHED_IN_LINES, chart.lines);
  }, origin);

const writeAll = (map: Y.Map<unknown>, watched: Watched, items: readonly { readonly id: string }[]): void => {
  const kept = new Set(items.map(({ id }) => id));
  for (const [id] of entriesOf(map)) {
    const entry = kept.has(id) ? null : editableEntry(map, id);
    if (entry) markDeleted(entry, watched);
  }
  const orders = firstOrderKeys(items.length);
  items.forEach(({ id, ...fields }, index) => {
    const entry = editableEntry(map, id);
    const all = { ...fields, order: orders[index] };
    if (entry) {
      unmarkDeleted(entry);
      setFields(entry, all);
    } else writeEntry(map, id, all);
  });
};
