import type * as Y from 'yjs';
import { barsOf } from './chart-document.ts';
import { unmarkDeleted } from './deletion.ts';
import { editableEntry, setFields } from './entry.ts';
import { stampSchema } from './schema-version.ts';

/**
 * Writes a bar and takes its deletion back, even where the text is the one it was deleted with. It comes back in its
 * place; if its section is gone, in "recovered". Gives false where the document never had such a bar.
 */
export const reviveBar = (doc: Y.Doc, bar: string, text: string, origin?: unknown): boolean =>
  doc.transact(() => {
    stampSchema(doc);
    const entry = editableEntry(barsOf(doc), bar);
    if (!entry) return false;
    unmarkDeleted(entry);
    setFields(entry, { text });
    return true;
  }, origin);
