import type * as Y from 'yjs';
import { type Leading, leadingAfter } from '../stage/leading.ts';
import { stampSchema } from './schema-version.ts';

/** The part of the document `stage` that says who leads; written by the relay alone, as all of it. */
export const leadingOf = (doc: Y.Doc): Y.Map<unknown> => doc.getMap<unknown>('leading');

const member = (value: unknown): string | null => (typeof value === 'string' ? value : null);

/** Who leads, and whether the book is locked; what is there and makes no sense does not count. Never throws. */
export const readLeading = (doc: Y.Doc): Leading => {
  const held = leadingOf(doc);
  return leadingAfter(
    {},
    { baton: member(held.get('baton')), taps: member(held.get('taps')), locked: held.get('locked') === true },
  );
};

/** Writes what differs, in one transaction. */
export const writeLeading = (doc: Y.Doc, next: Leading, origin?: unknown): void =>
  doc.transact(() => {
    stampSchema(doc);
    const held = leadingOf(doc);
    for (const name of ['baton', 'taps', 'locked'] as const) {
      if (next[name] === undefined) held.delete(name);
      else if (held.get(name) !== next[name]) held.set(name, next[name]);
    }
  }, origin);
