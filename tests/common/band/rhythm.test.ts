import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Count,
  hasCounts,
  placeOfCount,
  printRhythm,
  type Rhythm,
  readRhythm,
  readRhythmFor,
} from '../../../common/band/rhythm.ts';
import {
  countsOf,
  divisionFor,
  fitsMetre,
  gridOf,
  rhythmOfGrid,
  tick,
} from '../../../common/band/rhythm-grid.ts';
import { RHYTHMS, rhythmOf } from '../../../common/band/rhythm-library.ts';
import type { Metre } from '../../../common/chart/bar-music.ts';
import { readCounts } from '../../../common/chart/read-counts.ts';
import { COMMON_TIME, readMetre } from '../../../common/chart/read-metre.ts';

const metre = (text: string): Metre => readMetre(text) ?? COMMON_TIME;
const read = (text: string, time = '4/4') => readRhythm(text, metre(time));
/** Places in pulses, bar by bar. */
const places = (text: string, time = '4/4') =>
  read(text, time).rhythm.bars.map((bar) => bar.map((count) => placeOfCount(count, metre(time))));
const problems = (text: string, time = '4/4') =>
  read(text, time).problems.map(({ column, kind, suggestion }) => `${column} ${kind} ${suggestion ?? '–'}`);

const someMetre = fc.constantFrom('4/4', '3/4', '5/4 (3+2)', '7/8', '2/2', '6/8', '12/8').map(metre);
const someRhythm: fc.Arbitrary<{ rhythm: Rhythm; time: Metre }> = fc
  .tuple(someMetre, fc.integer({ min: 1, max: 2 }))
  .chain(([time, bars]) =>
    fc
      .tuple(...Array.from({ length: bars }, () => fc.subarray(countsOf(time, 'sixteenths'))))
      .map((all) => ({ rhythm: { pulses: time.pulses, bars: all }, time })),
  );

describe('a rhythm', () => {
  // Counts: common practice, no source.
  it.each([
    ['1 2& 4', [[0, 1.5, 3]]],
    ['1 e & a 3', [[0, 0.25, 0.5, 0.75, 2]]],
    ['1, 2 +, 4', [[0, 1, 1.5, 3]]],
    ['2and 4AND', [[1.5, 3.5]]],
    [
      '1 2& | 2& 4&',
      [
        [0, 1.5],
        [1.5, 3.5],
      ],
    ],
    ['| 1 3 | r |', [[0, 2], []]],
  ])('[BAND-22] %s is read the trade’s way', (text, expected) => {
    expect(places(text)).toEqual(expected);
    expect(problems(text)).toEqual([]);
  });

  it('[BAND-22] in compound time a pulse is counted 1 & a', () => {
    expect(places('1 & a 2', '6/8')).toEqual([[0, 1 / 3, 2 / 3, 1]]);
    expect(problems('1e', '6/8')).toEqual(['1 no-such-count 1&']);
  });

  it('[BAND-22] what is printed reads back as the same rhythm, and prints the same again', () => {
    fc.assert(
      fc.property(someRhythm, ({ rhythm, time }) => {
        const { rhythm: again, problems: found } = readRhythm(printRhythm(rhythm), time);
        expect(again).toEqual(rhythm);
        expect(found).toEqual([]);
        expect(printRhythm(again)).toBe(printRhythm(rhythm));
      }),
    );
  });

  it('[BAND-22] of one bar is read as the chart reads the counts of hits', () => {
    fc.assert(
      fc.property(someRhythm, ({ rhythm }) => {
        const [bar = []] = rhythm.bars;
        fc.pre(bar.length > 0);
        const text = printRhythm({ ...rhythm, bars: [bar] });
        expect(readCounts(text)).toBe(bar.map(({ pulse, part }) => `${pulse + 1}${part}`).join(' '));
      }),
    );
  });

  it.each([
    ['1 2x 4', ['3 unknown-count –']],
    ['1e&a', ['1 run-together 1 e & a']],
    ['& 4', ['1 no-pulse 1&']],
    ['1 5 4', ['3 no-such-count 4']],
    ['1 0', ['3 no-such-count 4']],
    ['3 1', ['3 goes-back | 1']],
    ['1 1 2', ['3 said-twice –']],
    ['1 | 2 | 3', ['7 too-many-bars –']],
    ['', ['1 no-counts 1 2& 4']],
    ['1 | x | 4', ['5 unknown-count –', '7 too-many-bars –']],
  ])(
    '[BAND-23] what is wrong with “%s” is said with its column, its kind and what would be right',
    (text, expected) => {
      expect(problems(text)).toEqual(expected);
    },
  );

  it('[BAND-23] the rest is read', () => {
    expect(places('1 2x 4')).toEqual([[0, 3]]);
    expect(places('1 7 2& 4')).toEqual([[0, 1.5, 3]]);
  });

  it('[BAND-23] never throws, and every problem has a column in the text', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: fc.constantFrom(...'123459 &ea|+r,x\t—😀') }),
        someMetre,
        (text, time) => {
          const { rhythm, problems: found } = readRhythm(text, time);
          expect(rhythm.bars.length).toBeLessThanOrEqual(2);
          expect(fitsMetre(rhythm, time)).toBe(true);
          for (const { column = 0, words } of found) {
            expect(column).toBeGreaterThanOrEqual(1);
            expect(column).toBeLessThanOrEqual(Math.max(1, text.length));
            expect(words).not.toBe('');
          }
        },
      ),
    );
  });
});

describe('a rhythm for a tune', () => {
  it('[BAND-24] counts in its metre; one of four beats is read as that in any metre', () => {
    const words = (text: string, time: string) => {
      const { rhythm, problems, metre: counted } = readRhythmFor(text, metre(time));
      return `${printRhythm(rhythm)} in ${counted.text}, ${problems.length} problems`;
    };
    expect(words('1 2&', '3/4')).toBe('1 2& in 3/4, 0 problems');
    expect(words('1 2& 4', '3/4')).toBe('1 2& 4 in 4/4, 0 problems');
    expect(words('1 a', '6/8')).toBe('1 a in 6/8, 0 problems');
    expect(words('1 7', '3/4')).toBe('1 in 3/4, 1 problems');
  });

  it('[BAND-24] has counts, or rests', () => {
    expect(['r', 'r | r', 'r | 4', '1'].map((text) => hasCounts(read(text, '4/4').rhythm))).toEqual([
      false,
      false,
      true,
      true,
    ]);
  });
});

describe('a grid', () => {
  it('[BAND-24] and its rhythm are the same', () => {
    fc.assert(
      fc.property(someRhythm, ({ rhythm, time }) => {
        expect(rhythmOfGrid(gridOf(rhythm, time))).toEqual(rhythm);
        expect(rhythmOfGrid(gridOf(rhythm, time, 'sixteenths'))).toEqual(rhythm);
      }),
    );
  });

  it('[BAND-24] ticking a box twice is as before, once adds or takes that count', () => {
    fc.assert(
      fc.property(someRhythm, fc.nat(), ({ rhythm, time }, n) => {
        const grid = gridOf(rhythm, time, 'sixteenths');
        const column = n % grid.columns.length;
        expect(tick(tick(grid, 0, column), 0, column)).toEqual(grid);
        const counts = (one: Rhythm) => one.bars[0]?.length ?? 0;
        expect(Math.abs(counts(rhythmOfGrid(tick(grid, 0, column))) - counts(rhythm))).toBe(1);
      }),
    );
  });

  it('[BAND-24] has the columns of its metre, as fine as its rhythm asks for', () => {
    const label = ({ pulse, part }: Count) => `${part === '' ? pulse + 1 : part}`;
    const columns = (text: string, time: string) => {
      const { rhythm } = read(text, time);
      return gridOf(rhythm, metre(time), divisionFor(rhythm)).columns.map(label).join(' ');
    };
    expect(columns('1 2& 4', '4/4')).toBe('1 & 2 & 3 & 4 &');
    expect(columns('1 a', '2/4')).toBe('1 e & a 2 e & a');
    expect(columns('1 2', '6/8')).toBe('1 & a 2 & a');
  });
});

describe('the library', () => {
  it('[BAND-22] has the usual rhythms by their names, each as it prints', () => {
    const all = Object.values(RHYTHMS).flat();
    for (const named of all) expect(printRhythm(rhythmOf(named))).toBe(named.text);
    // Charleston: one and the and of two; four to the bar: common practice, no source.
    const text = (name: string) => all.find((named) => named.name === name)?.text;
    expect(text('Charleston')).toBe('1 2&');
    expect(text('four to the bar')).toBe('1 2 3 4');
  });
});
