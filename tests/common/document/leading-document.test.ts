import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import { leadingOf, readLeading, writeLeading } from '../../../common/document/leading-document.ts';
import { readStage, writeTake } from '../../../common/document/stage-document.ts';
import { type LeadChange, type Leading, leadingAfter } from '../../../common/stage/leading.ts';

const member = fc.string({ minLength: 1, maxLength: 12 });
const change: fc.Arbitrary<LeadChange> = fc.record(
  { baton: fc.option(member), taps: fc.option(member), locked: fc.boolean() },
  { requiredKeys: [] },
);

describe('who leads', () => {
  it('is nobody, and the book is open, where nothing was said', () => {
    expect(readLeading(new Y.Doc())).toEqual({});
  });

  it('changes by what is named, and stays the same else', () => {
    const leading: Leading = { baton: 'bea', locked: true };
    expect(leadingAfter(leading, {})).toEqual(leading);
    expect(leadingAfter(leading, { taps: 'drums' })).toEqual({ baton: 'bea', taps: 'drums', locked: true });
    expect(leadingAfter(leading, { baton: null, locked: false })).toEqual({});
  });

  it('is the same after any changes, in the document of everybody, and changing twice changes once', () => {
    fc.assert(
      fc.property(fc.array(change, { maxLength: 12 }), (changes) => {
        const [here, there] = [new Y.Doc(), new Y.Doc()];
        here.on('update', (update: Uint8Array) => Y.applyUpdate(there, update));
        let leading: Leading = {};
        for (const one of changes) {
          leading = leadingAfter(leading, one);
          expect(leadingAfter(leading, one)).toEqual(leading);
          writeLeading(here, leading);
          expect(readLeading(here)).toEqual(leading);
        }
        expect(readLeading(there)).toEqual(leading);
      }),
      { numRuns: 200 },
    );
  });

  it('is written beside the take, and writing the same again sends nothing', () => {
    const doc = new Y.Doc();
    writeLeading(doc, { baton: 'bea' });
    const road = { legs: [], tempoBpm: 120, countBars: 2, key: '' };
    writeTake(doc, { id: 't1', chart: 'c1', title: 'Slow Ferry', road, cues: [] });
    expect(readLeading(doc)).toEqual({ baton: 'bea' });
    expect(readStage(doc)?.id).toBe('t1');
    let updates = 0;
    doc.on('update', () => updates++);
    writeLeading(doc, { baton: 'bea' });
    expect(updates).toBe(0);
  });

  it('is nobody where something else stands there', () => {
    const doc = new Y.Doc();
    for (const odd of [7, ['bea'], { id: 'bea' }, true]) {
      leadingOf(doc).set('baton', odd);
      leadingOf(doc).set('taps', '');
      leadingOf(doc).set('locked', 'yes');
      expect(readLeading(doc)).toEqual({});
    }
  });

  it('costs a year of passing the baton every evening less than ten kilobytes', () => {
    const doc = new Y.Doc();
    const before = Y.encodeStateAsUpdate(doc).length;
    for (let evening = 0; evening < 100; evening++) {
      writeLeading(doc, { baton: `member-${evening % 5}`, locked: true });
      writeLeading(doc, {});
    }
    expect(Y.encodeStateAsUpdate(doc).length - before).toBeLessThan(10_000);
  });
});
