import { describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import type { Bar, Chart } from '../../../common/chart/chart.ts';
import { applyChart } from '../../../common/document/apply-chart.ts';
import { readChartDocument } from '../../../common/document/chart-document.ts';
import { addBar, deleteBars, setBarText } from '../../../common/document/edit-chart.ts';
import { writeChartDocument } from '../../../common/document/write-chart-document.ts';
import { countingIds } from '../../../common/ids.ts';

const chartOf = (sections: Readonly<Record<string, string>>, prefix = 'i'): Chart => {
  const makeId = countingIds(prefix);
  const bar = (text: string): Bar => ({
    id: makeId(),
    text,
    left: '',
    right: '',
    ending: '',
    lineEnd: false,
  });
  return {
    head: { title: 'Ropewalk' },
    sections: Object.entries(sections).map(([label, bars]) => ({
      id: makeId(),
      label,
      bars: bars === '' ? [] : bars.split(' ').map(bar),
    })),
    road: [{ id: makeId(), name: 'Head', sections: 'A B', times: 'x2', words: '' }],
    lines: [{ id: makeId(), text: 'note: soft', after: '' }],
  };
};

const textsOf = ({ sections }: Chart) =>
  Object.fromEntries(sections.map(({ label, bars }) => [label, bars.map(({ text }) => text).join(' ')]));
const idsOf = (chart: Chart) =>
  new Map(chart.sections.flatMap(({ bars }) => bars.map(({ id, text }) => [text, id])));

const opened = (sections: Readonly<Record<string, string>>) => {
  const doc = new Y.Doc();
  writeChartDocument(doc, chartOf(sections));
  return doc;
};

const apply = (doc: Y.Doc, sections: Readonly<Record<string, string>>, base?: Chart) =>
  applyChart(doc, chartOf(sections, 'n'), countingIds('m'), 'text', base);

describe('a chart rewritten as text', () => {
  it('reads as it was rewritten', () => {
    const doc = opened({ A: 'C F G C', B: 'Am Dm' });
    apply(doc, { B: 'Am Dm7 E7', A: 'F G C Am', Coda: 'C' });
    expect(textsOf(readChartDocument(doc))).toEqual({ B: 'Am Dm7 E7', A: 'F G C Am', Coda: 'C' });
    expect(readChartDocument(doc).sections.map(({ label }) => label)).toEqual(['B', 'A', 'Coda']);
  });

  it('sends nothing where nothing was rewritten', () => {
    const doc = opened({ A: 'C F G C', B: 'Am Dm' });
    const before = Y.encodeStateAsUpdate(doc);
    apply(doc, { A: 'C F G C', B: 'Am Dm' });
    expect(Y.encodeStateAsUpdate(doc)).toEqual(before);
  });

  it('keeps the bars that are still there, moved or rewritten, under their ids', () => {
    const doc = opened({ A: 'C F G7 E7', B: 'Am Dm' });
    const before = idsOf(readChartDocument(doc));
    apply(doc, { A: 'C Bb F G13 E7', B: 'Dm', C: 'Am' });
    const after = idsOf(readChartDocument(doc));
    for (const text of ['C', 'F', 'E7', 'Am', 'Dm']) expect(after.get(text)).toBe(before.get(text));
    expect(after.get('G13')).toBe(before.get('G7'));
    expect([...before.values()]).not.toContain(after.get('Bb'));
  });

  it('keeps a section that only got another name', () => {
    const doc = opened({ A: 'C F G7 E7', B: 'Am Dm' });
    const before = readChartDocument(doc).sections[0]?.id;
    apply(doc, { Verse: 'C F G7 E7', B: 'Am Dm' });
    expect(readChartDocument(doc).sections[0]).toMatchObject({ id: before, label: 'Verse' });
  });

  it('is one transaction that carries its origin', () => {
    const doc = opened({ A: 'C F' });
    const origins: unknown[] = [];
    doc.on('afterTransaction', ({ origin }: Y.Transaction) => origins.push(origin));
    apply(doc, { A: 'C G', B: 'Am' });
    expect(origins).toEqual(['text']);
  });

  it('leaves alone what others wrote since the text was opened', () => {
    const doc = opened({ A: 'C F G C7', B: 'Am Dm' });
    const base = readChartDocument(doc);
    const ids = idsOf(base);
    const [section] = base.sections;
    setBarText(doc, ids.get('F') ?? '', 'Fm7');
    setBarText(doc, ids.get('Dm') ?? '', 'Dm9');
    addBar(doc, section?.id ?? '', ids.get('C') ?? '', 'theirs', countingIds('t'));
    deleteBars(doc, [ids.get('C7') ?? '']);
    apply(doc, { A: 'C F G13 C7', B: 'Am' }, base);
    expect(textsOf(readChartDocument(doc))).toEqual({ A: 'C theirs Fm7 G13', B: 'Am Dm9' });
  });

  it('brings back a bar that somebody deleted if it was rewritten', () => {
    const doc = opened({ A: 'C F G' });
    const base = readChartDocument(doc);
    deleteBars(doc, [idsOf(base).get('F') ?? '']);
    apply(doc, { A: 'C Fm6 G' }, base);
    expect(textsOf(readChartDocument(doc))).toEqual({ A: 'C Fm6 G' });
  });

  it('brings the head, the road map and kept lines up to date', () => {
    const doc = opened({ A: 'C' });
    const line = readChartDocument(doc).road[0]?.id;
    const next: Chart = {
      ...chartOf({ A: 'C' }, 'n'),
      head: { title: 'Ropewalk', tempo: '90' },
      road: [
        { id: 'x', name: 'Intro', sections: 'A', times: 'vamp', words: '' },
        { id: 'y', name: 'Head', sections: 'A', times: '', words: '' },
      ],
      lines: [
        { id: 'l1', text: 'note: loud', after: 'x' },
        { id: 'l2', text: 'mood: blue', after: 'road' },
      ],
    };
    applyChart(doc, next, countingIds('m'));
    const read = readChartDocument(doc);
    expect(read.head).toEqual({ title: 'Ropewalk', tempo: '90' });
    expect(read.road.map(({ name, sections }) => [name, sections])).toEqual([
      ['Intro', 'A'],
      ['Head', 'A'],
    ]);
    expect(read.road[1]?.id).toBe(line);
    expect(read.lines.map(({ text, after }) => [text, after])).toEqual([
      ['note: loud', read.road[0]?.id],
      ['mood: blue', 'road'],
    ]);
  });
});
