import type * as Y from 'yjs';
import { bandOf, type ChartEntry, chartsOf } from './book-document.ts';
import { editableEntry, setFields, writeEntry } from './entry.ts';
import { stampSchema } from './schema-version.ts';

/* What is written into the book by its pages; a tablet that reads does without. */

/** The fields of an entry as they are kept: those of the length beside the others. */
const entryFields = ({ length, ...fields }: Partial<Omit<ChartEntry, 'id'>>) => ({ ...fields, ...length });

export const setBandName = (doc: Y.Doc, name: string, origin?: unknown): void =>
  doc.transact(() => {
    stampSchema(doc);
    if (bandOf(doc).get('name') !== name) bandOf(doc).set('name', name);
  }, origin);

/** Puts a chart into the index. An id that is there already gets the new fields. */
export const addChart = (doc: Y.Doc, chart: ChartEntry, origin?: unknown): void =>
  doc.transact(() => {
    stampSchema(doc);
    const { id, ...rest } = chart;
    const fields = entryFields(rest);
    const entry = editableEntry(chartsOf(doc), id);
    if (entry) setFields(entry, fields);
    else writeEntry(chartsOf(doc), id, fields);
  }, origin);

/** Brings the index up to date with a chart's head; does nothing for a chart the book doesn't have. */
export const setChartEntry = (
  doc: Y.Doc,
  id: string,
  fields: Partial<Omit<ChartEntry, 'id' | 'deletedAtMs'>>,
  origin?: unknown,
): void =>
  doc.transact(() => {
    const entry = editableEntry(chartsOf(doc), id);
    if (entry) setFields(entry, entryFields(fields));
  }, origin);

/** Puts a chart away; it can be restored, its document stays. */
export const deleteChart = (doc: Y.Doc, id: string, deletedAtMs: number, origin?: unknown): void =>
  doc.transact(() => {
    const entry = editableEntry(chartsOf(doc), id);
    if (entry) setFields(entry, { deletedAtMs });
  }, origin);

export const restoreChart = (doc: Y.Doc, id: string, origin?: unknown): void =>
  doc.transact(() => {
    const entry = editableEntry(chartsOf(doc), id);
    if (entry) setFields(entry, { deletedAtMs: undefined });
  }, origin);
