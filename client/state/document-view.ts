import type * as Y from 'yjs';
import type { Observable } from './observable.ts';

/**
 * What a document holds, read anew only when asked after a change. The same object comes back until then.
 * @param read reads the whole document
 */
export const documentView = <Value>(doc: Y.Doc, read: (doc: Y.Doc) => Value): Observable<Value> => {
  let stale = true;
  let value: Value;
  const watchers = new Set<() => void>();
  // Before any listener hears of the update: one of those may ask what the document holds.
  doc.on('afterTransaction', ({ changed }: Y.Transaction) => {
    stale ||= changed.size > 0;
  });
  doc.on('update', () => {
    stale = true;
    for (const changed of [...watchers]) changed();
  });
  return {
    get: () => {
      if (stale) {
        value = read(doc);
        stale = false;
      }
      return value;
    },
    subscribe: (changed) => {
      watchers.add(changed);
      return () => watchers.delete(changed);
    },
  };
};
