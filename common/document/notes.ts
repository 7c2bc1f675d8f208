import type * as Y from 'yjs';
import { livingEntries } from './chart-document.ts';
import { WATCHED_IN_NOTES } from './deletion.ts';
import { field, textField } from './entry.ts';

/** A remark pinned to a bar: what fell apart there, what to try. */
export interface Note {
  readonly id: string;
  /** Id of the bar; it may have been deleted since. */
  readonly bar: string;
  /** Id of the member who wrote it. */
  readonly by: string;
  readonly text: string;
  readonly done: boolean;
}

export const notesOf = (doc: Y.Doc) => doc.getMap<unknown>('notes');

/** The notes of a chart, oldest first. */
export const readNotes = (doc: Y.Doc): Note[] =>
  livingEntries(notesOf(doc), WATCHED_IN_NOTES).map(({ id, entry }) => ({
    id,
    bar: textField(entry, 'bar'),
    by: textField(entry, 'by'),
    text: textField(entry, 'text'),
    done: field(entry, 'done') === true,
  }));
