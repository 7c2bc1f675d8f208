import { describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import type { Chart } from '../../../common/chart/chart.ts';
import { readChartDocument } from '../../../common/document/chart-document.ts';
import { writeChartDocument } from '../../../common/document/write-chart-document.ts';

const bar = (id: string, text: string) => ({ id, text, left: '', right: '', ending: '', lineEnd: false });

const slowFerry: Chart = {
  head: { title: 'Slow Ferry', key: 'Eb blues', time: '4/4' },
  sections: [
    { id: 's1', label: 'A', bars: [bar('b1', 'Eb7'), { ...bar('b2', '%'), right: ':|x3', lineEnd: true }] },
    { id: 's2', label: 'B', bars: [{ ...bar('b3', '"break" Fm7 r r r'), left: '|:', ending: '1.2.' }] },
  ],
  road: [{ id: 'r1', name: 'Head', sections: 'A B', times: 'x2', words: 'guitar, tenor' }],
  lines: [
    { id: 'l1', text: 'note: ask Bea', after: '' },
    { id: 'l2', text: 'mood: blue', after: 'b2' },
    { id: 'l3', text: '?? what', after: 'l2' },
  ],
};

describe('the chart document', () => {
  it('reads back the chart that was written into it', () => {
    const doc = new Y.Doc();
    writeChartDocument(doc, slowFerry);
    expect(readChartDocument(doc)).toEqual(slowFerry);
  });

  it('reads the same chart on the other side of the wire', () => {
    const [here, there] = [new Y.Doc(), new Y.Doc()];
    writeChartDocument(here, slowFerry);
    Y.applyUpdate(there, Y.encodeStateAsUpdate(here));
    expect(readChartDocument(there)).toEqual(slowFerry);
  });

  it('holds the new chart and nothing of the old one when it is written again', () => {
    const doc = new Y.Doc();
    writeChartDocument(doc, slowFerry);
    const shorter: Chart = {
      ...slowFerry,
      head: { title: 'Ferry' },
      sections: slowFerry.sections.slice(1),
      lines: [],
    };
    writeChartDocument(doc, shorter);
    expect(readChartDocument(doc)).toEqual(shorter);
    writeChartDocument(doc, slowFerry);
    expect(readChartDocument(doc)).toEqual(slowFerry);
  });

  it('reads an empty document as an empty chart', () => {
    expect(readChartDocument(new Y.Doc())).toEqual({ head: {}, sections: [], road: [], lines: [] });
  });
});
