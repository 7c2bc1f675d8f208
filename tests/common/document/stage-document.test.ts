import { describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import { appendCalled, readStage, writeTake } from '../../../common/document/stage-document.ts';
import type { Called, Take } from '../../../common/stage/cue.ts';
import { unrollBuilt } from '../form/build-chart.ts';

const { legs } = unrollBuilt({ A: '1 2 3 4 5 6 7 8 9 10 11 12' });
const take: Take = {
  id: 't1',
  chart: 'slow-ferry',
  title: 'Slow Ferry',
  road: { legs, tempoBpm: 108, countBars: 2, key: 'Eb blues' },
  cues: [],
};
const called = (id: string, calledAtMs: number): Called => ({ id, cue: { kind: 'lastChorus' }, calledAtMs });

describe('the stage document', () => {
  it('holds no take before one is called', () => {
    expect(readStage(new Y.Doc())).toBeNull();
  });

  it('holds the take with its cues in order, the same on the other side of the wire', () => {
    const [here, there] = [new Y.Doc(), new Y.Doc()];
    writeTake(here, { ...take, semitones: -2, cues: [called('c1', 1)] });
    appendCalled(here, called('c2', 2));
    appendCalled(here, { id: 'c3', cue: { kind: 'takeBack', cue: 'c2' }, calledAtMs: 3, by: 'ines' });
    Y.applyUpdate(there, Y.encodeStateAsUpdate(here));
    expect(readStage(there)).toEqual({
      ...take,
      semitones: -2,
      cues: [
        called('c1', 1),
        called('c2', 2),
        { id: 'c3', cue: { kind: 'takeBack', cue: 'c2' }, calledAtMs: 3, by: 'ines' },
      ],
    });
  });

  it('replaces a finished take in one update, so that no stand sees old cues with a new road', () => {
    const doc = new Y.Doc();
    writeTake(doc, { ...take, cues: [called('c1', 1)] });
    let updates = 0;
    doc.on('update', () => {
      updates += 1;
      expect(readStage(doc)).toEqual({ ...take, id: 't2' });
    });
    writeTake(doc, { ...take, id: 't2' });
    expect(updates).toBe(1);
  });

  it('does not grow with the takes of a year', () => {
    const doc = new Y.Doc();
    writeTake(doc, take);
    for (let cue = 0; cue < 30; cue++) appendCalled(doc, called(`c${cue}`, cue));
    const one = Y.encodeStateAsUpdate(doc).length;
    for (let count = 0; count < 300; count++) {
      writeTake(doc, take);
      for (let cue = 0; cue < 30; cue++) appendCalled(doc, called(`c${cue}`, cue));
    }
    expect(Y.encodeStateAsUpdate(doc).length).toBeLessThan(one + 200);
  });

  it('costs a tap less than a hundred bytes, and sends each alone', () => {
    const doc = new Y.Doc();
    writeTake(doc, take);
    const before = Y.encodeStateAsUpdate(doc).length;
    const sent: number[] = [];
    doc.on('update', (update: Uint8Array) => sent.push(update.length));
    for (let nth = 0; nth < 1_500; nth++) {
      const tappedAtMs = 1_785_000_000_000.25 + nth * 352.7;
      const id = `tap${String(nth).padStart(7, '0')}`;
      appendCalled(doc, {
        id,
        cue: { kind: 'tap', tappedAtMs },
        calledAtMs: tappedAtMs + 21.4,
        by: 'a1b2c3d4e5',
      });
    }
    expect((Y.encodeStateAsUpdate(doc).length - before) / 1_500).toBeLessThan(100);
    expect(Math.max(...sent)).toBeLessThan(120);
    expect(readStage(doc)?.cues).toHaveLength(1_500);
  });

  it('is no take where it holds something else', () => {
    for (const odd of [7, 'take', [], { id: 't' }, { id: 't', chart: 'c', road: { legs: 1 } }]) {
      const doc = new Y.Doc();
      doc.getArray<unknown>('take').push([odd]);
      expect(readStage(doc)).toBeNull();
    }
    const doc = new Y.Doc();
    writeTake(doc, take);
    doc.getArray<unknown>('take').push([7, { id: 'x' }, called('c1', 1)]);
    expect(readStage(doc)?.cues).toEqual([called('c1', 1)]);
  });
});
