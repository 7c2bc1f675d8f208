import { type FormEvent, useState } from 'react';
import type { Book } from '../../common/document/book-document.ts';
import { addNote, deleteNote, setNote } from '../../common/document/edit-chart.ts';
import { type Note, readNotes } from '../../common/document/notes.ts';
import type { ChartHandle } from '../state/chart-handle.ts';
import { makeId } from '../state/make-id.ts';

/** Notes pinned to the bar at hand, for everyone. */
export const Notes = ({
  handle,
  bar,
  number,
  member,
  members,
}: {
  readonly handle: ChartHandle;
  readonly bar: string | null;
  readonly number: number;
  readonly member: string;
  readonly members: Book['members'];
}) => {
  // A note begun over one bar is not pinned to the next one that is touched.
  const [drafts, setDrafts] = useState<Readonly<Record<string, string>>>({});
  const draft = drafts[bar ?? ''] ?? '';
  const setDraft = (text: string) => setDrafts({ ...drafts, [bar ?? '']: text });
  const notes = readNotes(handle.doc);
  const here = notes.filter((note) => note.bar === bar);
  const { doc, origin, canEdit } = handle;
  const add = (event: FormEvent) => {
    event.preventDefault();
    const text = draft.trim();
    if (text === '' || bar === null) return;
    addNote(doc, { bar, by: member, text }, makeId, origin);
    setDraft('');
  };
  const writer = (note: Note): string => members.find(({ id }) => id === note.by)?.name ?? 'somebody';
  if (bar === null) {
    const open = notes.filter(({ done }) => !done).length;
    return (
      <section aria-label="notes">
        <h2>Notes</h2>
        <p className="dim small">
          {open === 0
            ? 'Touch a bar to pin a note to it.'
            : `${open} open. Touch a bar to read and write its notes.`}
        </p>
      </section>
    );
  }
  return (
    <section aria-label="notes">
      <h2>Notes on bar {number}</h2>
      {here.map((note) => (
        <div className="note" key={note.id} data-done={note.done ? '' : undefined}>
          <p>{note.text}</p>
          <small className="dim">{writer(note)}, for everyone</small>
          {canEdit && (
            <span className="button-row">
              <button
                type="button"
                className="button-quiet"
                aria-pressed={note.done}
                onClick={() => setNote(doc, note.id, { done: !note.done }, origin)}
              >
                done
              </button>
              <button type="button" className="button-quiet" onClick={() => deleteNote(doc, note.id, origin)}>
                delete
              </button>
            </span>
          )}
        </div>
      ))}
      {canEdit && (
        <form className="note-form" onSubmit={add}>
          <label className="field">
            <span>A note for everyone</span>
            <input value={draft} maxLength={500} onChange={(event) => setDraft(event.target.value)} />
          </label>
          <button type="submit" className="button" disabled={draft.trim() === ''}>
            pin it
          </button>
        </form>
      )}
    </section>
  );
};
