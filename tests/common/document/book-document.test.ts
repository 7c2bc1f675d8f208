import { describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import { readBook, setMember } from '../../../common/document/book-document.ts';
import {
  addChart,
  deleteChart,
  restoreChart,
  setBandName,
  setChartEntry,
} from '../../../common/document/edit-book.ts';

const ferry = { id: 'c1', title: 'Slow Ferry', by: 'Ines', key: 'Eb blues', tempo: 108 };

describe('the book', () => {
  it('reads as empty before anything is written', () => {
    expect(readBook(new Y.Doc())).toEqual({ name: '', members: [], charts: [] });
  });

  it('holds the band, its members by name and its charts by title', () => {
    const doc = new Y.Doc();
    setBandName(doc, 'Harbour Street Five');
    setMember(doc, { id: 'm2', name: 'Tomas', part: 'tenor-sax' });
    setMember(doc, { id: 'm1', name: 'bea', part: 'trumpet' });
    addChart(doc, ferry);
    addChart(doc, { ...ferry, id: 'c2', title: 'low water' });
    expect(readBook(doc)).toEqual({
      name: 'Harbour Street Five',
      members: [
        { id: 'm1', name: 'bea', part: 'trumpet' },
        { id: 'm2', name: 'Tomas', part: 'tenor-sax' },
      ],
      charts: [{ ...ferry, id: 'c2', title: 'low water' }, ferry],
    });
  });

  it('puts a chart away and gives it back', () => {
    const doc = new Y.Doc();
    addChart(doc, ferry);
    deleteChart(doc, 'c1', 5_000);
    expect(readBook(doc).charts).toEqual([{ ...ferry, deletedAtMs: 5_000 }]);
    restoreChart(doc, 'c1');
    expect(readBook(doc).charts).toEqual([ferry]);
  });

  it('merges what two people change in one entry', () => {
    const [here, there] = [new Y.Doc(), new Y.Doc()];
    addChart(here, ferry);
    Y.applyUpdate(there, Y.encodeStateAsUpdate(here));
    setChartEntry(here, 'c1', { tempo: 90 });
    setChartEntry(there, 'c1', { title: 'Slower Ferry' });
    Y.applyUpdate(here, Y.encodeStateAsUpdate(there));
    Y.applyUpdate(there, Y.encodeStateAsUpdate(here));
    expect(readBook(here).charts).toEqual([{ ...ferry, tempo: 90, title: 'Slower Ferry' }]);
    expect(readBook(there)).toEqual(readBook(here));
  });

  it('reads what can be read of an odd document, and edits it', () => {
    const doc = new Y.Doc();
    doc.getMap<unknown>('band').set('name', 7);
    doc.getMap<unknown>('members').set('m1', { name: 'Bea', part: null });
    doc.getMap<unknown>('members').set('m2', 'Tomas');
    doc.getMap<unknown>('charts').set('c1', { title: ['x'], tempo: 'fast', deletedAtMs: 'yes' });
    expect(readBook(doc)).toEqual({
      name: '7',
      members: [{ id: 'm1', name: 'Bea', part: '' }],
      charts: [{ id: 'c1', title: '', by: '', key: '', tempo: 120 }],
    });
    setMember(doc, { id: 'm1', name: 'Bea', part: 'trumpet' });
    setChartEntry(doc, 'c1', { title: 'Ropewalk' });
    setChartEntry(doc, 'gone', { title: 'Ropewalk' });
    expect(readBook(doc).members).toEqual([{ id: 'm1', name: 'Bea', part: 'trumpet' }]);
    expect(readBook(doc).charts.map(({ title }) => title)).toEqual(['Ropewalk']);
  });
});
