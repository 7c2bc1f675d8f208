import { describe, expect, it } from 'vitest';
import {
  barBeside,
  barsBetween,
  copyLabel,
  freeLetter,
  numberOf,
} from '../../../client/pencil/neighbours.ts';
import { beatWords, understand } from '../../../client/pencil/understood.ts';
import { readChart } from '../../../common/chart/read-chart.ts';

const { chart } = readChart('key: Eb blues\n[A]\n| Fm7 | Bb7sus / Bb7 / |\n[B]\n| Eb7 | % |\n');
const bars = chart.sections.flatMap((section) => section.bars);
const id = (at: number) => bars[at]?.id ?? '';

describe('how a bar that is being typed is understood', () => {
  it('says beats and tones of every chord', () => {
    expect(understand(chart, id(1), 'Bb7sus / Bb7 /')?.parts).toEqual([
      { beats: '2 beats', name: 'Bb7sus', tones: ['Bb', 'Eb', 'F', 'Ab'] },
      { beats: '2 beats', name: 'Bb7', tones: ['Bb', 'D', 'F', 'Ab'] },
    ]);
  });

  it('reads a repeat sign from the bar before it', () => {
    expect(understand(chart, id(3), '%')?.parts).toMatchObject([{ beats: '4 beats', name: 'Eb7' }]);
  });

  it('reports what cannot be read, and only of this bar', () => {
    expect(understand(chart, id(0), 'Hm7')?.problems).toMatchObject([{ kind: 'unknown-chord' }]);
    expect(understand(chart, id(0), 'Fm7')?.problems).toEqual([]);
  });

  it('offers the bar with the suggestion in the place of what it stands for', () => {
    const read = understand(chart, id(0), '"brake" Fm7 Bb7');
    expect(read?.problems.map(({ mended }) => mended)).toEqual(['"break" Fm7 Bb7']);
    expect(understand(chart, id(0), 'Fm7 / / / /')?.problems[0]?.mended).toBe('Fm7 / / /');
  });

  it('says parts of beats', () => {
    expect([1, 2, 0.5, 1.5].map(beatWords)).toEqual(['1 beat', '2 beats', '½ beat', '1½ beats']);
  });
});

describe('bars beside each other', () => {
  it('go on over the end of a section', () => {
    expect(barBeside(chart, id(1), 1)).toBe(id(2));
    expect(barBeside(chart, id(0), -1)).toBeNull();
  });

  it('are taken from either end', () => {
    expect(barsBetween(chart, id(2), id(1))).toEqual([id(1), id(2)]);
  });

  it('get a letter that is free, a copied section a number', () => {
    expect(freeLetter(chart)).toBe('C');
    expect(copyLabel(chart, 'A')).toBe('A2');
    const { chart: more } = readChart('[A]\n| C |\n[A2]\n| C |\n[Bridge]\n| C |\n');
    expect([
      copyLabel(more, 'A'),
      copyLabel(more, 'A2'),
      copyLabel(more, 'Bridge'),
      copyLabel(more, ''),
    ]).toEqual(['A3', 'A3', 'Bridge2', 'B']);
  });

  it('have the numbers on paper: a pick-up is 0', () => {
    const { chart: pickUp } = readChart('[A]\n| "pick-up" G7 | C | F |\n');
    const ids = pickUp.sections.flatMap((section) => section.bars.map((bar) => bar.id));
    expect(ids.map((one) => numberOf(pickUp, one))).toEqual([0, 1, 2]);
    expect(numberOf(pickUp, 'gone')).toBe(0);
  });
});
