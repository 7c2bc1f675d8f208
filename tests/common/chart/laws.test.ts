import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { printChart } from '../../../common/chart/print-chart.ts';
import { readChart } from '../../../common/chart/read-chart.ts';

/** Pieces of which hand-typed charts are made, good and bad. */
const PIECES = [
  '|',
  '|',
  '|',
  '||',
  '|]',
  ':|',
  '|:',
  ':|x3',
  ': |',
  '|1.',
  '|2.',
  '|1,2.',
  '1.',
  ' ',
  ' ',
  '\n',
  '\n',
  '\t',
  'C7',
  'Am7',
  'Bb9',
  'F#m7b5',
  'C7(b9 #11)',
  '(',
  ')',
  '/',
  '////',
  '/G',
  'r',
  '%',
  '%%',
  'N.C.',
  '<Bb7',
  'H7',
  'x3',
  '"',
  '“',
  '"break"',
  '"brake"',
  '"2nd x only: fill"',
  '"3/4"',
  '"tempo 132"',
  '"pick-up"',
  '[A]',
  '[B]',
  '[',
  ']',
  'title: ',
  'key: Eb blues',
  'time: 5/4 (3+2)',
  'tempo: 108',
  'Tempo: 99',
  'mood: blue',
  'note: x',
  'road:',
  'road:\n',
  '  Head: A B x2',
  '  Solos: A open "guitar"',
  '  Tag: last 4 x3',
  ':',
  '♭',
  '♯',
  'Δ',
  '\u00a0',
  '\r\n',
  '\ufeff',
  '—',
  '🎺',
  'ø',
];
const text = fc.oneof(
  fc.array(fc.constantFrom(...PIECES), { maxLength: 60 }).map((parts) => parts.join('')),
  fc.string({ unit: 'binary', maxLength: 80 }),
);

const withoutPlaces = (read: ReturnType<typeof readChart>) => ({
  chart: read.chart,
  problems: read.problems.map(({ line: _l, column: _c, ...problem }) => problem),
});

const sorted = (read: ReturnType<typeof readChart>) => {
  const plain = withoutPlaces(read);
  return { ...plain, problems: plain.problems.map((problem) => JSON.stringify(problem)).sort() };
};

describe('the laws of chart text', () => {
  it('[NOTE-1] prints again character for character what was printed and read', () => {
    fc.assert(
      fc.property(text, (typed) => {
        const printed = printChart(readChart(typed).chart);
        expect(printChart(readChart(printed).chart)).toBe(printed);
      }),
      { numRuns: 3000 },
    );
  });

  it('[NOTE-2] reads what was printed as the same chart with the same problems but for positions', () => {
    fc.assert(
      fc.property(text, (typed) => {
        const read = readChart(typed);
        expect(sorted(readChart(printChart(read.chart)))).toEqual(sorted(read));
      }),
      { numRuns: 3000 },
    );
  });

  it('[NOTE-3] gives every problem a line and a column that are in the text', () => {
    fc.assert(
      fc.property(text, (typed) => {
        const lines = typed.split(/\r\n|\r|\n/);
        for (const { line = 0, column = 0 } of readChart(typed).problems) {
          expect(line).toBeGreaterThanOrEqual(1);
          expect(line).toBeLessThanOrEqual(lines.length);
          expect(column).toBeGreaterThanOrEqual(1);
          expect(column).toBeLessThanOrEqual((lines[line - 1] ?? '').length + 1);
        }
      }),
      { numRuns: 2000 },
    );
  });
});
