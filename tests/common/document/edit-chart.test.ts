import { describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import type { Bar, Chart } from '../../../common/chart/chart.ts';
import { RECOVERED, readChartDocument } from '../../../common/document/chart-document.ts';
import {
  addBar,
  addBars,
  addNote,
  addRoadLine,
  addSection,
  deleteBars,
  deleteNote,
  deleteRoadLine,
  deleteSection,
  duplicateBars,
  moveBars,
  moveRoadLine,
  moveSection,
  renameSection,
  setBarSigns,
  setBarText,
  setHead,
  setNote,
  setRoadLine,
} from '../../../common/document/edit-chart.ts';
import { readNotes } from '../../../common/document/notes.ts';
import { writeChartDocument } from '../../../common/document/write-chart-document.ts';
import { countingIds } from '../../../common/ids.ts';

const bar = (id: string): Bar => ({ id, text: id, left: '', right: '', ending: '', lineEnd: false });
const line = (id: string, name: string) => ({ id, name, sections: 'A', times: '', words: '' });

const opened = () => {
  const doc = new Y.Doc();
  const chart: Chart = {
    head: { title: 'Ropewalk' },
    sections: [
      { id: 'A', label: 'A', bars: [bar('a1'), { ...bar('a2'), lineEnd: true }, bar('a3')] },
      { id: 'B', label: 'B', bars: [bar('b1'), bar('b2')] },
    ],
    road: [line('r1', 'Head'), line('r2', 'Solos')],
    lines: [{ id: 'l1', text: 'note: soft', after: 'a3' }],
  };
  writeChartDocument(doc, chart);
  return { doc, makeId: countingIds('n') };
};

/** `/` where a line ends. */
const shown = (doc: Y.Doc) =>
  readChartDocument(doc).sections.map(
    ({ label, bars }) =>
      `${label}: ${bars.map(({ text, lineEnd }) => text + (lineEnd ? ' /' : '')).join(' ')}`,
  );

describe('editing bars', () => {
  it('writes a bar and its signs', () => {
    const { doc } = opened();
    setBarText(doc, 'a1', 'Fm7');
    setBarSigns(doc, 'a1', { left: '|:', ending: '1.' });
    expect(readChartDocument(doc).sections[0]?.bars[0]).toEqual({
      ...bar('a1'),
      text: 'Fm7',
      left: '|:',
      ending: '1.',
    });
  });

  it('adds a bar after another, first, or at the end of the line it stands behind', () => {
    const { doc, makeId } = opened();
    addBar(doc, 'A', 'a2', 'new', makeId);
    addBar(doc, 'A', null, 'first', makeId);
    expect(shown(doc)).toEqual(['A: first a1 a2 new / a3', 'B: b1 b2']);
  });

  it('gives new bars ids that it returns', () => {
    const { doc, makeId } = opened();
    const ids = addBars(doc, 'B', 'b1', [{ text: 'x' }, { text: 'y', right: '||', lineEnd: true }], makeId);
    expect(readChartDocument(doc).sections[1]?.bars.slice(1, 3)).toEqual([
      { ...bar(ids[0] ?? ''), text: 'x' },
      { ...bar(ids[1] ?? ''), text: 'y', right: '||', lineEnd: true },
    ]);
  });

  it('keeps the line whose last bar is deleted, and the lines pinned behind it', () => {
    const { doc } = opened();
    deleteBars(doc, ['a2', 'a3']);
    expect(shown(doc)).toEqual(['A: a1 /', 'B: b1 b2']);
    expect(readChartDocument(doc).lines).toEqual([{ id: 'l1', text: 'note: soft', after: 'a1' }]);
  });

  it('duplicates bars behind the last of them', () => {
    const { doc, makeId } = opened();
    const copies = duplicateBars(doc, ['b2', 'b1'], makeId);
    expect(shown(doc)[1]).toBe('B: b1 b2 b1 b2');
    expect(copies).toHaveLength(2);
  });

  it('moves bars with their ids, within a section and across', () => {
    const { doc, makeId } = opened();
    moveBars(doc, ['b1', 'b2'], 'A', 'a1', makeId);
    expect(readChartDocument(doc).sections[0]?.bars.map(({ id }) => id)).toEqual([
      'a1',
      'b1',
      'b2',
      'a2',
      'a3',
    ]);
    moveBars(doc, ['a1'], 'A', 'a3', makeId);
    moveBars(doc, ['a2'], 'B', null, makeId);
    expect(shown(doc)).toEqual(['A: b1 b2 / a3 a1', 'B: a2']);
  });

  it('moves whole lines as lines', () => {
    const { doc, makeId } = opened();
    moveBars(doc, ['a1', 'a2'], 'B', 'b2', makeId);
    expect(shown(doc)).toEqual(['A: a3', 'B: b1 b2 a1 a2 /']);
  });

  it('passes over bars that came and went, and over a move behind itself', () => {
    const { doc, makeId } = opened();
    const before = readChartDocument(doc);
    setBarText(doc, 'gone', 'C');
    setBarSigns(doc, 'gone', { right: '||' });
    deleteBars(doc, ['gone']);
    moveBars(doc, ['a1'], 'A', 'a1', makeId);
    expect(duplicateBars(doc, ['gone'], makeId)).toEqual([]);
    expect(readChartDocument(doc)).toEqual(before);
  });

  it('brings back a deleted bar when the text being typed into it arrives', () => {
    const { doc } = opened();
    deleteBars(doc, ['b1']);
    setBarText(doc, 'b1', 'Bb7');
    expect(shown(doc)[1]).toBe('B: Bb7 b2');
  });

  it('is undone by the one who did it', () => {
    const { doc, makeId } = opened();
    const mine = {};
    const undo = new Y.UndoManager([doc.getMap('bars'), doc.getMap('sections'), doc.getMap('road')], {
      trackedOrigins: new Set([mine]),
      captureTimeout: 0,
    });
    const before = readChartDocument(doc);
    deleteBars(doc, ['a1', 'a2'], mine);
    moveBars(doc, ['b1'], 'A', null, makeId, mine);
    deleteSection(doc, 'B', mine);
    setBarText(doc, 'a3', 'theirs', {});
    while (undo.canUndo()) undo.undo();
    const [section] = before.sections;
    expect(readChartDocument(doc).sections[0]?.bars).toEqual([
      ...(section?.bars.slice(0, 2) ?? []),
      { ...bar('a3'), text: 'theirs' },
    ]);
    expect(readChartDocument(doc).sections[1]).toEqual(before.sections[1]);
  });

  it('is one transaction each, and none that changes nothing', () => {
    const { doc, makeId } = opened();
    const origins: unknown[] = [];
    let updates = 0;
    doc.on('afterTransaction', ({ origin }: Y.Transaction) => origins.push(origin));
    doc.on('update', () => {
      updates += 1;
    });
    duplicateBars(doc, ['a1', 'a2', 'a3'], makeId, 'me');
    setBarText(doc, 'a1', 'a1', 'me');
    setHead(doc, 'title', 'Ropewalk', 'me');
    expect(origins).toEqual(['me', 'me', 'me']);
    expect(updates).toBe(1);
  });
});

describe('editing sections', () => {
  it('adds, renames and moves them', () => {
    const { doc, makeId } = opened();
    addSection(doc, 'Intro', null, makeId);
    renameSection(doc, 'A', 'Verse');
    moveSection(doc, 'B', null, makeId);
    expect(shown(doc)).toEqual(['B: b1 b2', 'Intro: ', 'Verse: a1 a2 / a3']);
  });

  it('deletes them with their bars', () => {
    const { doc } = opened();
    deleteSection(doc, 'A');
    expect(shown(doc)).toEqual(['B: b1 b2']);
  });

  it('lets "recovered" be written into, sorted out, renamed and deleted', () => {
    const { doc, makeId } = opened();
    doc.getMap('sections').delete('A');
    doc.getMap('sections').delete('B');
    expect(shown(doc)).toEqual(['recovered: a1 a2 / a3 b1 b2']);
    addBar(doc, RECOVERED, 'a3', 'new', makeId);
    expect(shown(doc)).toEqual(['recovered: a1 a2 / a3 new b1 b2']);
    renameSection(doc, RECOVERED, 'C');
    const section = addSection(doc, 'D', null, makeId);
    moveBars(doc, ['b1', 'b2'], section, null, makeId);
    expect(shown(doc)).toEqual(['D: b1 b2', 'C: a1 a2 / a3 new']);
    deleteSection(doc, RECOVERED);
    expect(shown(doc)).toEqual(['D: b1 b2']);
  });
});

describe('editing the head, the road map and notes', () => {
  it('sets a header line and takes it away', () => {
    const { doc } = opened();
    setHead(doc, 'tempo', '120');
    setHead(doc, 'title', undefined);
    expect(readChartDocument(doc).head).toEqual({ tempo: '120' });
  });

  it('edits the lines of the road map under their ids', () => {
    const { doc, makeId } = opened();
    const added = addRoadLine(doc, { name: 'Tag', sections: 'last 4', times: 'x3', words: '' }, 'r2', makeId);
    setRoadLine(doc, 'r1', { times: 'x2' });
    moveRoadLine(doc, 'r2', null, makeId);
    expect(readChartDocument(doc).road.map(({ id, times }) => [id, times])).toEqual([
      ['r2', ''],
      ['r1', 'x2'],
      [added, 'x3'],
    ]);
    deleteRoadLine(doc, 'r1');
    expect(readChartDocument(doc).road.map(({ id }) => id)).toEqual(['r2', added]);
  });

  it('pins notes to bars, oldest first', () => {
    const { doc, makeId } = opened();
    const first = addNote(doc, { bar: 'a1', by: 'bea', text: 'late' }, makeId);
    const second = addNote(doc, { bar: 'b1', by: 'ines', text: 'softer' }, makeId);
    setNote(doc, first, { done: true });
    expect(readNotes(doc)).toEqual([
      { id: first, bar: 'a1', by: 'bea', text: 'late', done: true },
      { id: second, bar: 'b1', by: 'ines', text: 'softer', done: false },
    ]);
    deleteNote(doc, first);
    expect(readNotes(doc).map(({ id }) => id)).toEqual([second]);
  });
});
