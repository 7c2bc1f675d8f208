import { describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import { readChart } from '../../../common/chart/read-chart.ts';
import { RECOVERED, readChartDocument } from '../../../common/document/chart-document.ts';
import { duplicateSection } from '../../../common/document/duplicate-section.ts';
import { deleteBars, deleteSection, moveSection, setBarText } from '../../../common/document/edit-chart.ts';
import { reviveBar } from '../../../common/document/revive-bar.ts';
import { writeChartDocument } from '../../../common/document/write-chart-document.ts';
import { countingIds } from '../../../common/ids.ts';

const opened = () => {
  const doc = new Y.Doc();
  const { chart } = readChart('[A]\n|: Fm7 | Bb7 :|x3\n| Eb7 |\n[B]\n| Ab7 |]\n', countingIds('i'));
  writeChartDocument(doc, chart);
  const [a, b] = chart.sections;
  return {
    doc,
    makeId: countingIds('n'),
    a: a?.id ?? '',
    b: b?.id ?? '',
    bars: chart.sections.flatMap(({ bars }) => bars.map(({ id }) => id)),
  };
};
const labels = (doc: Y.Doc) => readChartDocument(doc).sections.map(({ label }) => label);
const texts = (doc: Y.Doc) =>
  readChartDocument(doc).sections.map(({ bars }) => bars.map(({ text }) => text).join(' '));

describe('a whole section', () => {
  it('is copied behind itself with signs and line ends, under ids of its own', () => {
    const { doc, makeId, a } = opened();
    const copy = duplicateSection(doc, a, 'A2', makeId);
    const [first, second, third] = readChartDocument(doc).sections;
    expect([first?.label, second?.label, third?.label]).toEqual(['A', 'A2', 'B']);
    expect(second?.id).toBe(copy);
    const contents = (section: typeof first) => section?.bars.map(({ id: _, ...content }) => content);
    expect(contents(second)).toEqual(contents(first));
    const shared = second?.bars.filter(({ id }) => first?.bars.some((bar) => bar.id === id));
    expect(shared).toEqual([]);
    setBarText(doc, second?.bars[0]?.id ?? '', 'C7');
    expect(texts(doc)).toEqual(['Fm7 Bb7 Eb7', 'C7 Bb7 Eb7', 'Ab7']);
  });

  it('is one step for undo', () => {
    const { doc, makeId, a } = opened();
    const me = {};
    const undo = new Y.UndoManager([doc.getMap('sections'), doc.getMap('bars')], {
      trackedOrigins: new Set([me]),
      captureTimeout: 0,
    });
    duplicateSection(doc, a, 'A2', makeId, me);
    undo.undo();
    expect(labels(doc)).toEqual(['A', 'B']);
    expect(undo.canUndo()).toBe(false);
  });

  it('that is gone has no copy', () => {
    const { doc, makeId } = opened();
    expect(duplicateSection(doc, 'nowhere', 'X', makeId)).toBeNull();
    expect(labels(doc)).toEqual(['A', 'B']);
  });

  it('can be moved also where it keeps the bars of a lost one', () => {
    const { doc, makeId, a, bars } = opened();
    deleteSection(doc, a);
    reviveBar(doc, bars[0] ?? '', 'Fm7');
    expect(labels(doc)).toEqual(['B', RECOVERED]);
    moveSection(doc, RECOVERED, null, makeId);
    expect(labels(doc)).toEqual([RECOVERED, 'B']);
  });
});

describe('a bar that was deleted', () => {
  it('comes back in its place with what was being typed', () => {
    const { doc, bars } = opened();
    deleteBars(doc, [bars[1] ?? '']);
    expect(reviveBar(doc, bars[1] ?? '', 'Bb7sus')).toBe(true);
    expect(texts(doc)[0]).toBe('Fm7 Bb7sus Eb7');
  });

  it('comes back also with the text that it was deleted with', () => {
    const { doc, bars } = opened();
    deleteBars(doc, [bars[1] ?? '']);
    expect(texts(doc)[0]).toBe('Fm7 Eb7');
    reviveBar(doc, bars[1] ?? '', 'Bb7');
    expect(texts(doc)[0]).toBe('Fm7 Bb7 Eb7');
  });

  it('and was never there is not made up', () => {
    const { doc } = opened();
    expect(reviveBar(doc, 'nowhere', 'C7')).toBe(false);
    expect(texts(doc)).toEqual(['Fm7 Bb7 Eb7', 'Ab7']);
  });
});
