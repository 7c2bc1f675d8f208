import type * as Y from 'yjs';
import { type Chart, HEAD_WORDS } from '../chart/chart.ts';
import { barsOf, headOf, linesOf, roadOf, sectionsOf } from './chart-document.ts';
import {
  markDeleted,
  unmarkDeleted,
  WATCHED_IN_BARS,
  WATCHED_IN_LINES,
  WATCHED_IN_ROAD,
  WATCHED_IN_SECTIONS,
  type Watched,
} from './deletion.ts';
import { editableEntry, entriesOf, setFields, writeEntry } from './entry.ts';
import { firstOrderKeys } from './order-key.ts';
import { stampSchema } from './schema-version.ts';

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
