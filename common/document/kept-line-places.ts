import type * as Y from 'yjs';
import { HEAD_WORDS, type KeptLine, type RoadLine, type Section } from '../chart/chart.ts';
import { ROAD_PLACE } from '../chart/kept-line.ts';
import { isEntry, textField } from './entry.ts';

/**
 * The kept lines, each after something that is still there. A line whose bar was deleted stands after the bar
 * before it, or under the section's name; where its section is gone too, or lines point at each other in a ring,
 * it stands at the top of the chart.
 */
export const keptLinePlaces = (
  doc: Y.Doc,
  lines: readonly KeptLine[],
  sections: readonly Section[],
  road: readonly RoadLine[],
): KeptLine[] => {
  const standing = new Set<string>([
    '',
    ROAD_PLACE,
    ...HEAD_WORDS,
    ...sections.flatMap((section) => [section.id, ...section.bars.map((bar) => bar.id)]),
    ...road.map((line) => line.id),
    ...lines.map((line) => line.id),
  ]);
  const placed = lines.map((line) => ({
    ...line,
    after: placeLeft(doc, line.after, standing, sections, road),
  }));
  const after = new Map(placed.map((line) => [line.id, line.after]));
  return placed.map((line) => (isInRing(line.id, after) ? { ...line, after: '' } : line));
};

const isInRing = (id: string, after: ReadonlyMap<string, string>): boolean => {
  const seen = new Set<string>();
  for (let at = after.get(id); at !== undefined && !seen.has(at); at = after.get(at)) {
    if (at === id) return true;
    seen.add(at);
  }
  return false;
};

/** What now stands in the place that `id` stands or stood in, as far as the document still knows. */
const placeLeft = (
  doc: Y.Doc,
  id: string,
  standing: ReadonlySet<string>,
  sections: readonly Section[],
  road: readonly RoadLine[],
): string => {
  const seen = new Set<string>();
  let at = id;
  while (!standing.has(at) && !seen.has(at)) {
    seen.add(at);
    const line = doc.getMap<unknown>('lines').get(at);
    if (!isEntry(line)) break;
    at = textField(line, 'after');
  }
  if (standing.has(at)) return at;
  const bar = doc.getMap<unknown>('bars').get(at);
  if (isEntry(bar)) return barBefore(doc, textField(bar, 'section'), textField(bar, 'order'), sections);
  return doc.getMap<unknown>('road').has(at) ? (road.at(-1)?.id ?? '') : '';
};

/** The last bar of the section that stands before this order key; the section itself where there is none; '' where it is gone. */
const barBefore = (doc: Y.Doc, sectionId: string, order: string, sections: readonly Section[]): string => {
  const section = sections.find(({ id }) => id === sectionId);
  if (!section) return '';
  let before = section.id;
  for (const { id } of section.bars) {
    const entry = doc.getMap<unknown>('bars').get(id);
    if (isEntry(entry) && textField(entry, 'order') <= order) before = id;
  }
  return before;
};
