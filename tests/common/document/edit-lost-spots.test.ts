import { describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import { readChart } from '../../../common/chart/read-chart.ts';
import { readChartDocument } from '../../../common/document/chart-document.ts';
import { setBarText } from '../../../common/document/edit-chart.ts';
import { addSpot, bringBackSpot, deleteSpot, dismissSpot } from '../../../common/document/edit-lost-spots.ts';
import { readLostSpotsSaid } from '../../../common/document/lost-spots-said.ts';
import { readSchema, SCHEMA } from '../../../common/document/schema-version.ts';
import { writeChartDocument } from '../../../common/document/write-chart-document.ts';
import { countingIds } from '../../../common/ids.ts';

const opened = () => {
  const doc = new Y.Doc();
  writeChartDocument(doc, readChart('[A]\n| C7 | F7 | C7 | G7 |\n', countingIds('b')).chart);
  return { doc, makeId: countingIds('n') };
};

/** How many transactions that change something, and how large they are in bytes. */
const watched = (doc: Y.Doc) => {
  const updates: number[] = [];
  doc.on('update', (update: Uint8Array) => updates.push(update.length));
  return updates;
};

const copyOf = (doc: Y.Doc): Y.Doc => {
  const copy = new Y.Doc();
  Y.applyUpdate(copy, Y.encodeStateAsUpdate(doc));
  return copy;
};

const merge = (...docs: readonly Y.Doc[]) => {
  for (const to of docs) for (const from of docs) Y.applyUpdate(to, Y.encodeStateAsUpdate(from));
};

const SEAM = 'seam:b4 b1';

describe('what the writers say about lost spots', () => {
  it('is nothing in a chart about which nobody has said anything', () => {
    expect(readLostSpotsSaid(opened().doc)).toEqual({ dismissed: [], added: [] });
    expect(readLostSpotsSaid(new Y.Doc())).toEqual({ dismissed: [], added: [] });
  });

  it('is a dismissal, which can be taken back', () => {
    const { doc } = opened();
    dismissSpot(doc, SEAM);
    dismissSpot(doc, 'break:b2');
    expect(readLostSpotsSaid(doc).dismissed).toEqual(['break:b2', SEAM]);
    bringBackSpot(doc, SEAM);
    expect(readLostSpotsSaid(doc).dismissed).toEqual(['break:b2']);
  });

  it('is a spot that was added, with its bars and words, the oldest first', () => {
    const { doc, makeId } = opened();
    const first = addSpot(doc, { from: 'b2', to: 'b3', words: 'drums play the tune' }, makeId);
    const second = addSpot(doc, { from: 'b1', to: 'b1', words: 'no bass' }, makeId);
    expect(readLostSpotsSaid(doc).added).toEqual([
      { id: first, from: 'b2', to: 'b3', words: 'drums play the tune' },
      { id: second, from: 'b1', to: 'b1', words: 'no bass' },
    ]);
    deleteSpot(doc, first);
    expect(readLostSpotsSaid(doc).added.map(({ id }) => id)).toEqual([second]);
  });

  it('is one small transaction each, and none where it was said already or there is no such spot', () => {
    const { doc, makeId } = opened();
    const updates = watched(doc);
    dismissSpot(doc, SEAM);
    dismissSpot(doc, SEAM);
    bringBackSpot(doc, SEAM);
    bringBackSpot(doc, SEAM);
    const id = addSpot(doc, { from: 'b1', to: 'b2', words: 'w' }, makeId);
    deleteSpot(doc, id);
    deleteSpot(doc, id);
    deleteSpot(doc, 'never');
    expect(updates).toHaveLength(4);
    expect(Math.max(...updates)).toBeLessThan(200);
  });

  it('stamps a new document, and leaves the music alone', () => {
    const empty = new Y.Doc();
    dismissSpot(empty, SEAM);
    expect(readSchema(empty)).toBe(SCHEMA);
    const { doc, makeId } = opened();
    const before = readChartDocument(doc);
    dismissSpot(doc, SEAM);
    addSpot(doc, { from: 'b1', to: 'b2', words: 'w' }, makeId);
    expect(readChartDocument(doc)).toEqual(before);
    setBarText(doc, 'b2', 'Bb7');
    expect(readLostSpotsSaid(doc).dismissed).toEqual([SEAM]);
  });

  it('is the same for two who dismiss one spot at once, and both spots where two add one', () => {
    const { doc: ines, makeId } = opened();
    const tomas = copyOf(ines);
    for (const doc of [ines, tomas]) dismissSpot(doc, SEAM);
    addSpot(ines, { from: 'b1', to: 'b1', words: 'here' }, makeId);
    addSpot(tomas, { from: 'b4', to: 'b4', words: 'there' }, countingIds('t'));
    merge(ines, tomas);
    expect(readLostSpotsSaid(ines)).toEqual(readLostSpotsSaid(tomas));
    expect(readLostSpotsSaid(ines).dismissed).toEqual([SEAM]);
    expect(
      readLostSpotsSaid(ines)
        .added.map(({ words }) => words)
        .sort(),
    ).toEqual(['here', 'there']);
  });

  it('is one’s own to undo: what the other has said stays', () => {
    const { doc: ines } = opened();
    const tomas = copyOf(ines);
    const undo = new Y.UndoManager([ines.getMap('dismissedSpots'), ines.getMap('addedSpots')], {
      trackedOrigins: new Set(['ines']),
      captureTimeout: 0,
    });
    dismissSpot(ines, SEAM, 'ines');
    addSpot(ines, { from: 'b1', to: 'b1', words: 'here' }, countingIds('n'), 'ines');
    dismissSpot(tomas, 'break:b2', 'tomas');
    merge(ines, tomas);
    undo.undo();
    expect(readLostSpotsSaid(ines)).toEqual({ dismissed: ['break:b2', SEAM], added: [] });
    undo.undo();
    expect(readLostSpotsSaid(ines).dismissed).toEqual(['break:b2']);
    undo.redo();
    expect(readLostSpotsSaid(ines).dismissed).toEqual(['break:b2', SEAM]);
  });

  it('is read as far as it can be where another program wrote it', () => {
    const { doc } = opened();
    const [dismissed, added] = [doc.getMap<unknown>('dismissedSpots'), doc.getMap<unknown>('addedSpots')];
    dismissed.set('a', 'yes');
    dismissed.set('b', true);
    added.set('c', { from: 'b1', words: 'two\nlines' });
    added.set('d', 7);
    expect(readLostSpotsSaid(doc)).toEqual({
      dismissed: ['b'],
      added: [{ id: 'c', from: 'b1', to: '', words: 'two lines' }],
    });
    deleteSpot(doc, 'c');
    expect(readLostSpotsSaid(doc).added).toEqual([]);
  });
});
