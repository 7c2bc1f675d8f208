import type * as Y from 'yjs';
import { type Entry, field, textField } from './entry.ts';

/**
 * Deleting keeps the entry and writes down what it held in the eyes of the person who deleted it. If somebody
 * else was typing into it at that time, it no longer holds that, and stays: what is typed is never lost.
 * Undo takes the word away again, and an id is never reused.
 */
const DELETED = 'deleted';

/** The fields whose change by somebody else outlives a deletion. */
export type Watched = readonly string[];

export const WATCHED_IN_BARS: Watched = ['section', 'text', 'left', 'right', 'ending'];
export const WATCHED_IN_SECTIONS: Watched = ['label'];
export const WATCHED_IN_ROAD: Watched = ['name', 'sections', 'times', 'words'];
export const WATCHED_IN_LINES: Watched = ['text'];
export const WATCHED_IN_NOTES: Watched = ['text'];
export const WATCHED_IN_SPOTS: Watched = ['from', 'to', 'words'];

const heldBy = (entry: Entry, watched: Watched): string =>
  JSON.stringify(watched.map((name) => textField(entry, name)));

/** Whether the entry is deleted, as everybody who has the same changes reads it. */
export const isDeleted = (entry: Entry, watched: Watched): boolean =>
  field(entry, DELETED) === heldBy(entry, watched);

export const markDeleted = (entry: Y.Map<unknown>, watched: Watched): void => {
  const held = heldBy(entry, watched);
  if (entry.get(DELETED) !== held) entry.set(DELETED, held);
};

/** Takes the deletion back: for an entry that is wanted again. */
export const unmarkDeleted = (entry: Y.Map<unknown>): void => {
  if (entry.has(DELETED)) entry.delete(DELETED);
};
