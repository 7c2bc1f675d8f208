import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import { type DocumentStorage, documentState } from '../../server/document-state.ts';

const memory = () => {
  let rows: Uint8Array[] = [];
  const storage: DocumentStorage = {
    load: () => rows,
    append: (update) => {
      rows = [...rows, update];
    },
    compact: (snapshot) => {
      rows = [snapshot];
    },
  };
  return { storage, rows: () => rows };
};

const typed = (text: string) => {
  const doc = new Y.Doc();
  const updates: Uint8Array[] = [];
  doc.on('update', (update: Uint8Array) => updates.push(update));
  for (const letter of text) doc.getText('t').insert(doc.getText('t').length, letter);
  return { doc, updates };
};

const textOf = (updates: readonly Uint8Array[]) => {
  const doc = new Y.Doc();
  for (const update of updates) Y.applyUpdate(doc, update);
  return doc.getText('t').toString();
};

const LIMIT = 1_000_000;

describe('the state of a document', () => {
  it('is the same from memory, from the disk, and compact', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 30 }), fc.nat(30), (text, compactAt) => {
        const { storage, rows } = memory();
        const state = documentState(storage, LIMIT);
        const { updates } = typed(text);
        updates.forEach((update, nth) => {
          expect(state.apply(update).outcome).toBe('applied');
          if (nth === compactAt) state.compact();
        });
        expect(textOf([state.whole().update])).toBe(textOf(updates));
        expect(textOf(rows())).toBe(textOf(updates));
        state.release();
        expect(textOf([state.whole().update])).toBe(textOf(updates));
        expect(textOf([documentState(storage, LIMIT).whole().update])).toBe(textOf(updates));
      }),
    );
  });

  it('builds no document for somebody who comes without one, once it is compact', () => {
    const { storage } = memory();
    const { updates } = typed('Slow Ferry');
    const writer = documentState(storage, LIMIT);
    for (const update of updates) writer.apply(update);
    writer.compact();
    const state = documentState(storage, LIMIT);
    expect(textOf([state.since(Uint8Array.of(0))])).toBe('Slow Ferry');
    expect(state.hasDoc()).toBe(false);
    const half = new Y.Doc();
    for (const update of updates.slice(0, 5)) Y.applyUpdate(half, update);
    Y.applyUpdate(half, state.since(Y.encodeStateVector(half)));
    expect(half.getText('t').toString()).toBe('Slow Ferry');
  });

  it('stores what is new of an update, and nothing of what is known', () => {
    const { storage, rows } = memory();
    const state = documentState(storage, LIMIT);
    const { updates } = typed('ab');
    expect(state.apply(updates[0] ?? new Uint8Array()).news).not.toBeNull();
    expect(state.apply(updates[0] ?? new Uint8Array())).toEqual({ outcome: 'applied', news: null });
    expect(rows()).toHaveLength(1);
  });

  it('says that something is missing, keeps nothing half, and takes it all when it comes', () => {
    const { storage, rows } = memory();
    const state = documentState(storage, LIMIT);
    const { doc, updates } = typed('abc');
    expect(state.apply(updates[2] ?? new Uint8Array())).toEqual({ outcome: 'missing', news: null });
    expect(rows()).toEqual([]);
    expect(state.apply(Y.encodeStateAsUpdate(doc, state.whole().stateVector)).outcome).toBe('applied');
    expect(textOf(rows())).toBe('abc');
  });

  it('does not take what cannot be read, and is whole afterwards', () => {
    const { storage, rows } = memory();
    const state = documentState(storage, LIMIT);
    for (const update of typed('abc').updates) state.apply(update);
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 60 }), (bytes) => {
        state.apply(bytes);
        expect(textOf(rows())).toBe('abc');
      }),
    );
    expect(state.apply(Uint8Array.of(9, 9, 9)).outcome).toBe('unreadable');
  });

  it('survives updates with a byte changed', () => {
    const { updates } = typed('abcdef');
    const whole = Y.mergeUpdates(updates);
    fc.assert(
      fc.property(fc.nat(whole.length - 1), fc.nat(255), (at, byte) => {
        const { storage, rows } = memory();
        const state = documentState(storage, LIMIT);
        state.apply(Uint8Array.from(whole, (own, nth) => (nth === at ? byte : own)));
        // Whatever was taken can be read again.
        textOf(rows());
        documentState(storage, LIMIT).read((doc) => doc.getText('t').toString());
      }),
      { numRuns: 500 },
    );
  });

  it('does not grow beyond its limit, measured by its state and not by its history', () => {
    const { storage } = memory();
    const state = documentState(storage, 3_000);
    const doc = new Y.Doc();
    const write = (text: string) => {
      const before = Y.encodeStateVector(doc);
      doc.getMap('m').set('text', text);
      return state.apply(Y.encodeStateAsUpdate(doc, before)).outcome;
    };
    for (let nth = 0; nth < 20; nth++) expect(write(String(nth).repeat(400))).toBe('applied');
    expect(write('x'.repeat(3_000))).toBe('tooLarge');
  });

  it('leaves stored bytes alone that it cannot read', () => {
    const { storage, rows } = memory();
    storage.append(Uint8Array.of(1, 2, 3));
    const state = documentState(storage, LIMIT);
    expect(() => state.whole()).toThrow();
    expect(() => state.apply(typed('a').updates[0] ?? new Uint8Array())).toThrow();
    expect(rows()).toEqual([Uint8Array.of(1, 2, 3)]);
  });

  it('costs a few bytes for twenty thousand overwrites by one writer', () => {
    const { storage } = memory();
    const state = documentState(storage, LIMIT);
    for (let nth = 0; nth < 20_000; nth++) {
      state.write(7, (doc) => doc.getMap('stage').set('take', nth));
      if (nth % 500 === 0) {
        state.compact();
        if (nth % 5_000 === 0) state.release();
      }
    }
    expect(state.whole().update.length).toBeLessThan(100);
    expect(state.read((doc) => doc.getMap('stage').get('take'))).toBe(19_999);
  });
});
