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
