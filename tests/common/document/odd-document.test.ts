import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import { applyChart } from '../../../common/document/apply-chart.ts';
import { readChartDocument } from '../../../common/document/chart-document.ts';
import {
  addBars,
  addRoadLine,
  addSection,
  deleteBars,
  deleteSection,
  duplicateBars,
  moveBars,
  setBarText,
} from '../../../common/document/edit-chart.ts';
import { readLostSpotsSaid } from '../../../common/document/lost-spots-said.ts';
import { readNotes } from '../../../common/document/notes.ts';
import { countingIds } from '../../../common/ids.ts';

const field = fc.constantFrom(
  'text',
  'section',
  'order',
  'left',
  'right',
  'label',
  'after',
  'name',
  'deleted',
  'lineEnd',
);
const value = fc.oneof(
  fc.constantFrom<unknown>(
    'a0',
    'a1',
    's1',
    's2',
    '',
    'Fm7',
    ':|',
    'two\nlines',
    null,
    7,
    true,
    'l1',
    'b1',
    '!!',
  ),
  fc.constant([1, 2]),
);
const entry = fc.record({
  map: fc.constantFrom('bars', 'sections', 'lines', 'road', 'notes', 'head', 'addedSpots', 'dismissedSpots'),
  id: fc.constantFrom('s1', 's2', 'b1', 'b2', 'b3', 'l1', 'l2', 'r1', 'title', 'recovered'),
  fields: fc.dictionary(field, value, { maxKeys: 5 }),
  plain: fc.boolean(),
  whole: fc.option(value),
});

/** A document as another program, or an old one, might have left it. */
const oddDocument = fc.array(entry, { maxLength: 14 }).map((entries) => {
  const doc = new Y.Doc();
  for (const { map, id, fields, plain, whole } of entries) {
    const odd = whole ?? (plain ? { ...fields } : new Y.Map(Object.entries(fields)));
    doc.getMap<unknown>(map).set(id, odd);
  }
  return doc;
});

describe('a document that other programs wrote into', () => {
  it('is read as far as it can be, with text on one line and no kept line pointing at nothing', () => {
    fc.assert(
      fc.property(oddDocument, (doc) => {
        const { sections, road, lines } = readChartDocument(doc);
        readNotes(doc);
        const { dismissed, added } = readLostSpotsSaid(doc);
        for (const words of [...dismissed, ...added.flatMap((spot) => Object.values(spot))]) {
          expect(words).toBeTypeOf('string');
        }
        const standing = new Set([
          '',
          ...sections.flatMap(({ id, bars }) => [id, ...bars.map((bar) => bar.id)]),
          ...[...road, ...lines].map(({ id }) => id),
        ]);
        for (const { after } of lines) expect(standing.has(after)).toBe(true);
        for (const { text } of sections.flatMap(({ bars }) => bars)) expect(text).not.toContain('\n');
      }),
      { numRuns: 400, seed: 21 },
    );
  });

  it('is edited without a throw, and what is added is there', () => {
    fc.assert(
      fc.property(oddDocument, fc.nat(), (doc, at) => {
        const makeId = countingIds('new');
        const { sections } = readChartDocument(doc);
        const section = sections[at % Math.max(1, sections.length)];
        const bars = section?.bars.map(({ id }) => id) ?? [];
        const added = addBars(
          doc,
          section?.id ?? 'nowhere',
          bars[0] ?? null,
          [{ text: 'x' }, { text: 'y' }],
          makeId,
        );
        const now = readChartDocument(doc).sections.find(({ bars: all }) =>
          all.some(({ id }) => id === added[0]),
        );
        const place = now?.bars.findIndex(({ id }) => id === added[0]) ?? -1;
        expect(now?.bars[place + 1]?.id).toBe(added[1]);
        if (section && bars[0] !== undefined) expect(now?.bars[place - 1]?.id).toBe(bars[0]);
        moveBars(doc, bars, added[0] ?? '', null, makeId);
        duplicateBars(doc, bars, makeId);
        setBarText(doc, bars[0] ?? '', 'typed');
        addRoadLine(doc, { name: 'Head', sections: 'A', times: '', words: '' }, 'r1', makeId);
        const fresh = addSection(doc, 'D', section?.id ?? null, makeId);
        applyChart(doc, { ...readChartDocument(doc), lines: [] }, makeId);
        deleteSection(doc, fresh);
        deleteBars(doc, added);
        expect(readChartDocument(doc).road.some(({ name }) => name === 'Head')).toBe(true);
      }),
      { numRuns: 300, seed: 22 },
    );
  });
});
