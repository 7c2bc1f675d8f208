import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { copyTitle } from '../../../client/book/copy-chart.ts';
import { filterCharts, putAway } from '../../../client/book/filter-charts.ts';
import { keyForReader } from '../../../client/book/key-for-reader.ts';
import { lengthTold, lengthWords } from '../../../client/book/length-words.ts';
import { newChartProblems, newChartText } from '../../../client/book/new-chart-text.ts';
import { placeInText, withRoadLines } from '../../../client/book/place-in-text.ts';
import { readChart } from '../../../common/chart/read-chart.ts';
import type { ChartEntry } from '../../../common/document/book-document.ts';
import { unroll } from '../../../common/form/unroll.ts';

const entry = (id: string, title: string, more: Partial<ChartEntry> = {}): ChartEntry => ({
  id,
  title,
  by: '',
  key: '',
  tempo: 120,
  ...more,
});

describe('searching the book', () => {
  const charts = [
    entry('1', 'Slow Ferry', { by: 'Ines', key: 'Eb blues' }),
    entry('2', 'Café at Pier Nine', { by: 'Bea' }),
    entry('3', 'Low Tide', { deletedAtMs: 5 }),
    entry('4', 'High Tide', { deletedAtMs: 9 }),
  ];
  const found = (search: string) => filterCharts(charts, search).map(({ id }) => id);

  it('finds titles, writers and keys, whatever capitals and accents', () => {
    expect(found('ferry')).toEqual(['1']);
    expect(found('cafe')).toEqual(['2']);
    expect(found('BEA')).toEqual(['2']);
    expect(found('eb blues')).toEqual(['1']);
  });

  it('asks for every word, in any order', () => {
    expect(found('ines slow')).toEqual(['1']);
    expect(found('ines cafe')).toEqual([]);
  });

  it('shows all that are in the book where nothing is searched, and the deleted ones apart, the last first', () => {
    expect(found('  ')).toEqual(['1', '2']);
    expect(putAway(charts).map(({ id }) => id)).toEqual(['4', '3']);
  });
});

describe('a key in the book', () => {
  it('is the reader’s own', () => {
    expect(keyForReader('Eb blues', 'tenor-sax', false)).toBe('F blues');
    expect(keyForReader('Eb blues', 'tenor-sax', true)).toBe('E♭ blues');
    expect(keyForReader('Eb blues', 'guitar', false)).toBe('E♭ blues');
    expect(keyForReader('F', 'alto-sax', false)).toBe('D major');
  });

  it('stays as typed where it cannot be read or the instrument is unknown', () => {
    expect(keyForReader('in the cracks', 'tenor-sax', false)).toBe('in the cracks');
    expect(keyForReader('G minor', 'nose flute', false)).toBe('G minor');
    expect(keyForReader('', 'tenor-sax', false)).toBe('');
  });
});

describe('a new chart', () => {
  const fields = { title: 'Low Tide', by: '', key: 'F', time: '5/4 (3+2)', tempo: '96', bars: 6 };

  it('reads back with its header and its empty bars, four to a line', () => {
    const { chart } = readChart(newChartText(fields));
    expect(chart.head).toEqual({ title: 'Low Tide', key: 'F', time: '5/4 (3+2)', tempo: '96' });
    expect(chart.sections.map(({ label, bars }) => [label, bars.length])).toEqual([['A', 6]]);
    expect(chart.sections[0]?.bars.map(({ lineEnd }) => lineEnd)).toEqual([
      false,
      false,
      false,
      true,
      false,
      true,
    ]);
  });

  it('keeps a title on one line, whatever is pasted into it', () => {
    const { chart } = readChart(newChartText({ ...fields, title: 'Low\n[B]\nTide' }));
    expect(chart.head.title).toBe('Low [B] Tide');
    expect(chart.sections).toHaveLength(1);
  });

  it('says what cannot be taken as typed, and nothing about what was left empty', () => {
    expect(newChartProblems(fields)).toEqual([]);
    expect(newChartProblems({ ...fields, key: '', time: '', tempo: '' })).toEqual([]);
    const wrong = { ...fields, title: ' ', key: 'H', time: '4', tempo: '1000' };
    expect(newChartProblems(wrong).map(({ field }) => field)).toEqual(['title', 'key', 'time', 'tempo']);
  });
});

describe('a copy’s title', () => {
  it('is counted on from the titles that are taken', () => {
    expect(copyTitle('Slow Ferry', ['Slow Ferry'])).toBe('Slow Ferry (2)');
    expect(copyTitle('Slow Ferry (2)', ['Slow Ferry', 'Slow Ferry (2)'])).toBe('Slow Ferry (3)');
  });
});

describe('a place in a text', () => {
  it('is found by line and column', () => {
    expect(placeInText('ab\ncd\nef', 1, 1)).toBe(0);
    expect(placeInText('ab\ncd\nef', 2, 2)).toBe(4);
    expect(placeInText('ab\ncd', 1, 9)).toBe(2);
    expect(placeInText('ab\ncd', 9, 1)).toBe(5);
  });

  it('lies on the line it names', () => {
    fc.assert(
      fc.property(fc.array(fc.stringMatching(/^[a-z]{0,5}$/), { minLength: 1 }), fc.nat(), (lines, pick) => {
        const line = (pick % lines.length) + 1;
        const at = placeInText(lines.join('\n'), line, 1);
        expect(lines.join('\n').slice(0, at).split('\n')).toHaveLength(line);
      }),
    );
  });

  it('is given to a problem of the road map by its leg', () => {
    const text = 'title: Low Tide\n\n[A]\n| F | C7 |\n\nroad:\n  Head: A\n  Solos: A Q open\n';
    const { chart } = readChart(text);
    const [problem] = withRoadLines(text, chart, unroll(chart).problems);
    expect(problem).toMatchObject({ line: 8, column: 3 });
  });
});

describe('how long a chart is, in words', () => {
  const length = { formBars: 16, lengthMs: 267_000, isAssumed: true };

  it('says what is assumed, and only where something is', () => {
    expect(lengthWords(length)).toBe('16 bars, about 4:27');
    expect(lengthTold(length)).toMatch(
      /^16 bars once .* 4:27, without the count-in: what is open is taken 4 times/,
    );
    expect(lengthWords({ ...length, formBars: 1, isAssumed: false })).toBe('1 bar, 4:27');
    expect(lengthTold({ ...length, isAssumed: false })).toMatch(/without the count-in\.$/);
  });

  it('is nothing where nothing is written', () => {
    expect(lengthWords({ formBars: 0, lengthMs: 0, isAssumed: false })).toBe('nothing written yet');
  });
});
