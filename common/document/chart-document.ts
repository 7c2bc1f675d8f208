import type * as Y from 'yjs';
import {
  type Bar,
  type Chart,
  HEAD_WORDS,
  type KeptLine,
  type RoadLine,
  type Section,
} from '../chart/chart.ts';
import { byOrder, type Ordered } from './by-order.ts';
import {
  isDeleted,
  WATCHED_IN_BARS,
  WATCHED_IN_LINES,
  WATCHED_IN_ROAD,
  WATCHED_IN_SECTIONS,
  type Watched,
} from './deletion.ts';
import { asText, type Entry, entriesOf, field, textField } from './entry.ts';
import { keptLinePlaces } from './kept-line-places.ts';

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
