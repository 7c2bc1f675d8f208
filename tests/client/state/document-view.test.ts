import { describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import { documentView } from '../../../client/state/document-view.ts';

const texts = (doc: Y.Doc): string => doc.getText('words').toString();

describe('a view of a document', () => {
  it('is the same object until the document changes', () => {
    const doc = new Y.Doc();
    const view = documentView(doc, (one) => ({ words: texts(one) }));
    const before = view.get();
    expect(view.get()).toBe(before);
    doc.transact(() => {});
    expect(view.get()).toBe(before);
    doc.getText('words').insert(0, 'C7');
    expect(view.get()).toEqual({ words: 'C7' });
  });

  it('holds the change already for listeners that heard of it first', () => {
    const doc = new Y.Doc();
    const heard: string[] = [];
    // Before the view: as a document that is opened listens before anybody looks at it.
    doc.on('update', () => heard.push(view.get()));
    const view = documentView(doc, texts);
    expect(view.get()).toBe('');
    const other = new Y.Doc();
    other.getText('words').insert(0, 'Eb7');
    Y.applyUpdate(doc, Y.encodeStateAsUpdate(other));
    expect(heard).toEqual(['Eb7']);
  });
});
