import type * as Y from 'yjs';
import { editableEntry } from './entry.ts';

/**
 * The shape of all documents that this code writes. It is raised when an older page would misread a document.
 *  0  no number; entries may be plain objects
 *  1  every entry is a Y.Map of fields; deletions are words in the entry
 * What is said about lost spots came later and raises nothing: a page that doesn't know it reads the rest as it is.
 */
export const SCHEMA = 1;

const metaOf = (doc: Y.Doc) => doc.getMap<unknown>('meta');

/** The document's schema number; 0 where none is written. */
export const readSchema = (doc: Y.Doc): number => {
  const schema = metaOf(doc).get('schema');
  return typeof schema === 'number' && Number.isInteger(schema) && schema >= 0 ? schema : 0;
};

/** The document was written by a newer program: show it, but write nothing into it. */
export const isNewerThanThisPage = (doc: Y.Doc): boolean => readSchema(doc) > SCHEMA;

const CONTENTS = [
  ...['head', 'sections', 'bars', 'lines', 'road', 'notes', 'addedSpots', 'dismissedSpots'],
  ...['band', 'members', 'charts'],
];

/**
 * Writes the number into a document that is new. One that holds something without a number is old: it keeps
 * none until it is migrated. Called first of all in a transaction, by everything that may write a new document.
 */
export const stampSchema = (doc: Y.Doc): void => {
  if (metaOf(doc).has('schema') || CONTENTS.some((name) => doc.getMap(name).size > 0)) return;
  metaOf(doc).set('schema', SCHEMA);
};

/** One step for each number: `STEPS[n]` turns a document of schema n into one of n + 1. */
const STEPS: readonly ((doc: Y.Doc) => void)[] = [
  (doc) => {
    for (const name of CONTENTS.filter((contents) => contents !== 'head' && contents !== 'band')) {
      const map = doc.getMap<unknown>(name);
      for (const id of [...map.keys()]) editableEntry(map, id);
    }
  },
];

/**
 * Brings an older document up to `SCHEMA` in one transaction; leaves a newer one alone. Only the relay calls
 * this, before anybody joins: two migrations at once would overwrite each other's entries.
 * @returns whether anything was changed
 */
export const migrate = (doc: Y.Doc, origin?: unknown): boolean => {
  const from = readSchema(doc);
  if (from >= SCHEMA) return false;
  doc.transact(() => {
    for (const step of STEPS.slice(from)) step(doc);
    metaOf(doc).set('schema', SCHEMA);
  }, origin);
  return true;
};
