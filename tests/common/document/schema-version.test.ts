import { describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import type { Chart } from '../../../common/chart/chart.ts';
import { readChartDocument } from '../../../common/document/chart-document.ts';
import { setBandName } from '../../../common/document/edit-book.ts';
import { setBarText } from '../../../common/document/edit-chart.ts';
import { readLostSpotsSaid } from '../../../common/document/lost-spots-said.ts';
import { readNotes } from '../../../common/document/notes.ts';
import { isNewerThanThisPage, migrate, readSchema, SCHEMA } from '../../../common/document/schema-version.ts';
import { writeChartDocument } from '../../../common/document/write-chart-document.ts';
import schema0 from './saved/chart-schema-0.json' with { type: 'json' };
import schema1 from './saved/chart-schema-1.json' with { type: 'json' };
import schema1LostSpots from './saved/chart-schema-1-lost-spots.json' with { type: 'json' };

const saved = ({ update }: { readonly update: string }) => {
  const doc = new Y.Doc();
  Y.applyUpdate(
    doc,
    Uint8Array.from(atob(update), (byte) => byte.charCodeAt(0)),
  );
  return doc;
};

const plain = { left: '', right: '', ending: '', lineEnd: false };
const slowFerry: Chart = {
  head: { title: 'Slow Ferry', key: 'Eb blues' },
  sections: [
    {
      id: 's1',
      label: 'A',
      bars: [
        { ...plain, id: 'b1', text: 'Eb7', left: '|:' },
        { ...plain, id: 'b2', text: 'Ab7 Adim7', right: ':|x3', lineEnd: true },
      ],
    },
    { id: 's2', label: 'B', bars: [{ ...plain, id: 'b3', text: '"break" Fm7 r r r', right: '|]' }] },
  ],
  road: [{ id: 'r1', name: 'Head', sections: 'A B', times: 'x2', words: '' }],
  lines: [{ id: 'l1', text: 'note: ask Bea', after: 'b2' }],
};

describe('the schema number', () => {
  it('is written into every new document', () => {
    const [chart, book] = [new Y.Doc(), new Y.Doc()];
    writeChartDocument(chart, slowFerry);
    setBandName(book, 'Harbour Street Five');
    expect([readSchema(chart), readSchema(book)]).toEqual([SCHEMA, SCHEMA]);
    expect(readSchema(new Y.Doc())).toBe(0);
  });

  it('of a newer program says that this page may only read', () => {
    const doc = new Y.Doc();
    writeChartDocument(doc, slowFerry);
    expect(isNewerThanThisPage(doc)).toBe(false);
    doc.getMap('meta').set('schema', SCHEMA + 1);
    expect(isNewerThanThisPage(doc)).toBe(true);
    expect(migrate(doc)).toBe(false);
    expect(readSchema(doc)).toBe(SCHEMA + 1);
  });
});

describe('saved documents', () => {
  it('of schema 0 read the same before and after they are migrated', () => {
    const doc = saved(schema0);
    expect(readSchema(doc)).toBe(0);
    expect(readChartDocument(doc)).toEqual(slowFerry);
    expect(migrate(doc)).toBe(true);
    expect(readChartDocument(doc)).toEqual(slowFerry);
    expect(readNotes(doc)).toEqual([{ id: 'n1', bar: 'b1', by: 'ines', text: 'late', done: false }]);
    expect(readSchema(doc)).toBe(SCHEMA);
    expect(migrate(doc)).toBe(false);
  });

  it('of schema 0 keep no number when a page writes into them, so that they are still migrated', () => {
    const doc = saved(schema0);
    setBarText(doc, 'b1', 'Eb9');
    expect(readSchema(doc)).toBe(0);
    expect(migrate(doc)).toBe(true);
    expect(readChartDocument(doc).sections[0]?.bars[0]?.text).toBe('Eb9');
  });

  it('of schema 0 can be written in by two people at once after they are migrated', () => {
    const [here, there] = [saved(schema0), new Y.Doc()];
    migrate(here);
    Y.applyUpdate(there, Y.encodeStateAsUpdate(here));
    setBarText(here, 'b1', 'Eb9');
    setBarText(there, 'b2', 'Ab9');
    Y.applyUpdate(here, Y.encodeStateAsUpdate(there));
    expect(readChartDocument(here).sections[0]?.bars.map(({ text }) => text)).toEqual(['Eb9', 'Ab9']);
  });

  it('of schema 1 read as they did when they were saved', () => {
    const doc = saved(schema1);
    expect(readSchema(doc)).toBe(1);
    const { sections, lines } = readChartDocument(doc);
    expect(sections.map(({ bars }) => bars.map(({ text }) => text))).toEqual([
      ['Ab7'],
      ['"break" Fm7 r r r', 'Bb7'],
    ]);
    expect(lines).toEqual(slowFerry.lines);
    expect(readLostSpotsSaid(doc)).toEqual({ dismissed: [], added: [] });
  });

  it('of schema 1 in which something is said about lost spots read as they did when they were saved', () => {
    const doc = saved(schema1LostSpots);
    expect(readSchema(doc)).toBe(1);
    expect(readChartDocument(doc).sections[0]?.bars.map(({ id }) => id)).toEqual(['b2', 'b3', 'b4', 'b5']);
    expect(readLostSpotsSaid(doc)).toEqual({
      dismissed: ['seam:b4 b5 b2'],
      added: [{ id: 's3', from: 'b3', to: 'b4', words: 'the guitar alone' }],
    });
  });
});
