import { describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import { readChart } from '../../../common/chart/read-chart.ts';
import { readBook } from '../../../common/document/book-document.ts';
import { chartEntryOf, roadEntryOf } from '../../../common/document/chart-entry.ts';
import { addChart, setChartEntry } from '../../../common/document/edit-book.ts';

const lengthOf = (text: string) => roadEntryOf(readChart(text).chart).length;
const BLUES = 'tempo: 120\n[A]\n| C7 | F7 | C7 | C7 |\n| F7 | F7 | C7 | C7 |\n| G7 | F7 | C7 | G7 |\n';

describe('how long a chart is', () => {
  it('is once through the form, and the whole road with what is open taken four times', () => {
    // Head, four solo choruses, head out: six times 12 bars of 4/4 at 120, 2 s a bar.
    expect(lengthOf(BLUES)).toEqual({ formBars: 12, lengthMs: 144_000, isAssumed: true });
  });

  it('is certain where nothing is left open', () => {
    expect(lengthOf(`${BLUES}road:\n  Head: A x2\n`)).toEqual({
      formBars: 12,
      lengthMs: 48_000,
      isAssumed: false,
    });
  });

  it('takes the leg that is open for the form, not a longer one that is played once', () => {
    const text = 'tempo: 120\n[A]\n|: C | F :|\n[B]\n| G |\nroad:\n  Head: A B\n  Solos: B open\n';
    expect(lengthOf(text)).toEqual({ formBars: 1, lengthMs: (5 + 4) * 2000, isAssumed: true });
    expect(lengthOf(text.replace(' open', '')).formBars).toBe(5);
  });

  it('is nothing where no bar is written', () => {
    expect(lengthOf('title: Ropewalk\n')).toEqual({ formBars: 0, lengthMs: 0, isAssumed: false });
  });
});

describe('the book', () => {
  // Common practice, no source: 6/8 goes by dotted quarters.
  it('knows by what pulse a chart goes, where somebody has said so', () => {
    const doc = new Y.Doc();
    addChart(doc, chartEntryOf('c1', readChart('title: A\ntime: 6/8\ntempo: 56\n').chart));
    addChart(doc, chartEntryOf('c2', readChart('title: B\ntime: 3/4\n').chart));
    addChart(doc, { id: 'c3', title: 'C', by: '', key: '', tempo: 108 });
    const pulses = () => readBook(doc).charts.map(({ isCompound }) => isCompound);
    expect(pulses()).toEqual([true, false, undefined]);
    setChartEntry(doc, 'c3', { isCompound: true });
    expect(pulses()).toEqual([true, false, true]);
  });

  // Common practice, no source: 6/8 goes by dotted quarters.
  it('goes by the metre of the first bar that is played, wherever it is written', () => {
    const isCompound = (text: string) => roadEntryOf(readChart(text).chart).isCompound;
    expect(isCompound('time: 4/4\n[A]\n| "6/8" C | F |\n')).toBe(true);
    expect(isCompound('time: 6/8\n[A]\n| "4/4" C | F |\n')).toBe(false);
    expect(isCompound('time: 4/4\n[A]\n| C | "6/8" F |\n')).toBe(false);
    expect(isCompound('time: 4/4\n[A]\n| C |\n[B]\n| "6/8" F |\nroad:\n  Intro: B\n  Head: A\n')).toBe(true);
    expect(isCompound('time: 6/8\n')).toBe(true);
  });

  it('keeps the length with the chart, and has none where none was kept', () => {
    const doc = new Y.Doc();
    const entry = chartEntryOf('c1', readChart(`title: Ropewalk\nkey: C\n${BLUES}`).chart);
    addChart(doc, entry);
    addChart(doc, { id: 'c2', title: 'Slow Ferry', by: '', key: '', tempo: 108 });
    expect(readBook(doc).charts).toEqual([
      entry,
      { id: 'c2', title: 'Slow Ferry', by: '', key: '', tempo: 108 },
    ]);
    setChartEntry(doc, 'c2', { length: { formBars: 16, lengthMs: 1, isAssumed: false } });
    expect(readBook(doc).charts[1]?.length).toEqual({ formBars: 16, lengthMs: 1, isAssumed: false });
  });
});
