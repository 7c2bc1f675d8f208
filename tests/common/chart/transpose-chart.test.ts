import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readBarText } from '../../../common/chart/bar-text.ts';
import type { Chart } from '../../../common/chart/chart.ts';
import { checkChart } from '../../../common/chart/check-chart.ts';
import { readChart } from '../../../common/chart/read-chart.ts';
import { transposeChart } from '../../../common/chart/transpose-chart.ts';
import { DEMO_BAND } from '../../../common/demo/demo-band.ts';
import { readChordSymbol } from '../../../common/theory/chord-symbol.ts';
import { chordPitchClasses } from '../../../common/theory/chord-tones.ts';
import { readKey } from '../../../common/theory/key.ts';
import { inverseReading, readingFor } from '../../../common/theory/transpose.ts';
import { typedText } from './typed-text.ts';

const bars = (chart: Chart): string[] =>
  chart.sections.flatMap((section) => section.bars.map(({ text }) => text));
const moved = (text: string, semitones: number) => {
  const { chart } = readChart(text);
  return transposeChart(chart, readingFor(readKey(chart.head.key ?? ''), semitones));
};

/** What sounds: the pitch classes of every chord, everything else but basses and keys as typed. */
const sounds = (chart: Chart): unknown[] =>
  bars(chart).map((text) =>
    readBarText(text).map((token) => {
      const symbol = token.kind === 'chord' ? readChordSymbol(token.symbol) : null;
      if (symbol) return chordPitchClasses(symbol);
      return token.kind === 'bass' ? token.kind : token.text.replace(/key .*/, 'key');
    }),
  );

describe('a chart in another key', () => {
  it('moves its key and every chord, and nothing else', () => {
    const { chart, left } = moved(
      'key: Eb blues\n[A]\n|: "break" Fm7 r r r | <Bb7sus / Bb7/D / :|x3\n| N.C. | "say B flat" E♭Δ | % | /G |]\n',
      2,
    );
    expect(chart.head.key).toBe('F blues');
    expect(bars(chart)).toEqual([
      '"break" Gm7 r r r',
      '<C7sus / C7/E /',
      'N.C.',
      '"say B flat" FΔ',
      '%',
      '/A',
    ]);
    expect(chart.sections[0]?.bars[1]?.right).toBe(':|x3');
    expect(left).toEqual([]);
  });

  it('moves the keys that words name, with their reach', () => {
    const { chart } = moved('key: F\n[A]\n| F | "key Eb minor" Ebm | "last x: key G" G |\n', -1);
    expect(chart.head.key).toBe('E');
    expect(bars(chart)).toEqual(['E', '"key D minor" Dm', '"last x: key F#" F#']);
  });

  it('keeps the signs its writer uses', () => {
    const { chart } = moved('key: E♭ minor\n[A]\n| E♭m7 | A♭7 |\n', 7);
    expect([chart.head.key, ...bars(chart)]).toEqual(['B♭ minor', 'B♭m7', 'E♭7']);
  });

  it('leaves what it cannot read and says so', () => {
    const { chart, left } = moved('key: C\n[A]\n| Hm7 C7 | c7 Hm7 |\n', 3);
    expect(bars(chart)).toEqual(['Hm7 Eb7', 'c7 Hm7']);
    expect(left).toEqual(['Hm7', 'c7']);
  });

  it('counts as C where no key is written', () => {
    expect(bars(moved('[A]\n| C7 | F7 |\n', 6).chart)).toEqual(['Gb7', 'Cb7']);
  });

  it('is the same chart where it is moved by octaves', () => {
    const { chart } = readChart('key: F\n[A]\n| F7 |\n');
    expect(transposeChart(chart, readingFor(readKey('F'), 12)).chart).toBe(chart);
  });

  it('names no tonic with two accidentals', () => {
    const { chart } = moved('key: F#\n[A]\n| "key C#" C# |\n', 3);
    expect([chart.head.key, ...bars(chart)]).toEqual(['A', '"key E" E']);
    const sharp = transposeChart(readChart('key: G#\n[A]\n| G# |\n').chart, { fifths: 7, semitones: 1 });
    expect([sharp.chart.head.key, ...bars(sharp.chart)]).toEqual(['A', 'A']);
  });

  it('loses no chord of the demo band in any key', () => {
    for (const { text } of DEMO_BAND.charts) {
      const { chart } = readChart(text);
      for (let semitones = -11; semitones <= 11; semitones++) {
        const there = transposeChart(chart, readingFor(readKey(chart.head.key ?? ''), semitones));
        expect(there.left).toEqual([]);
        expect(checkChart(there.chart)).toEqual([]);
        const up = (pitch: number) => (((pitch + semitones) % 12) + 12) % 12;
        expect(sounds(there.chart), `${chart.head.title} by ${semitones}`).toEqual(
          sounds(chart).map((bar) =>
            (bar as unknown[]).map((token) => (Array.isArray(token) ? token.map(up) : token)),
          ),
        );
      }
    }
  });

  it('keeps the problems it had, and back again it sounds as before', () => {
    fc.assert(
      fc.property(typedText, fc.integer({ min: -14, max: 14 }), (text, semitones) => {
        const { chart } = readChart(text);
        const reading = readingFor(readKey(chart.head.key ?? ''), semitones);
        const there = transposeChart(chart, reading).chart;
        const kinds = (one: Chart) => checkChart(one).map(({ kind }) => kind);
        expect(kinds(there)).toEqual(kinds(chart));
        expect(sounds(transposeChart(there, inverseReading(reading)).chart)).toEqual(sounds(chart));
      }),
      { numRuns: 300, seed: 20 },
    );
  });
});
