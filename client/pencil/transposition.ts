import type { Chart } from '../../common/chart/chart.ts';
import { keyTextOf } from '../../common/chart/head.ts';
import { transposeChart } from '../../common/chart/transpose-chart.ts';
import { setBarText, setHead } from '../../common/document/edit-chart.ts';
import { type Key, makeKey, printKey, readKey } from '../../common/theory/key.ts';
import { fifthsOf, noteAt, pitchClassAt } from '../../common/theory/pitch.ts';
import { type Reading, readingFor } from '../../common/theory/transpose.ts';
import type { ChartHandle } from '../state/chart-handle.ts';

export interface KeyChoice {
  readonly key: Key;
  /** "F blues". */
  readonly name: string;
  readonly reading: Reading;
}

/** Keys with more accidentals than this are written as their enharmonic. */
const MOST_ACCIDENTALS = 6;

/** The semitones of an interval on the line of fifths, the nearer way: −5 … 6. */
const nearest = (fifths: number): number => {
  const up = pitchClassAt(fifths);
  return up > 6 ? up - 12 : up;
};

/** The keys that a chart in this key can be put into, in order of pitch from C; F♯ and G♭ are two. */
export const keyChoices = (from: Key): KeyChoice[] => {
  const shift = from.fifths - fifthsOf(from.tonic);
  const signatures = Array.from({ length: 2 * MOST_ACCIDENTALS + 1 }, (_, at) => at - MOST_ACCIDENTALS);
  return signatures
    .map((signature) => {
      const key = makeKey(noteAt(signature - shift), from.mode);
      const fifths = key.fifths - from.fifths;
      return { key, name: printKey(key), reading: { fifths, semitones: nearest(fifths) } };
    })
    .sort((a, b) => pitchOf(a.key) - pitchOf(b.key) || a.key.fifths - b.key.fifths);
};

const pitchOf = (key: Key): number => pitchClassAt(fifthsOf(key.tonic));

const INTERVALS = [
  'a half step',
  'a whole step',
  'a minor third',
  'a major third',
  'a fourth',
  'a tritone',
  'a fifth',
  'a minor sixth',
  'a major sixth',
  'a minor seventh',
  'a major seventh',
] as const;

/** @example intervalWords(-2) // 'down a whole step' */
export const intervalWords = (semitones: number): string =>
  semitones === 0
    ? 'as it is'
    : `${semitones > 0 ? 'up' : 'down'} ${INTERVALS[Math.abs(semitones) - 1] ?? `${Math.abs(semitones)} half steps`}`;

/** Every distance there is: a chart has no octaves, so up a fifth and down a fourth write the same. */
export const DISTANCES: readonly number[] = [1, 2, 3, 4, 5, 6, -5, -4, -3, -2, -1];

export const keyOf = (chart: Chart): Key | null => readKey(keyTextOf(chart));

/** The exact interval for so many semitones, so that the chart's new key has the fewest accidentals. */
export const readingBy = (chart: Chart, semitones: number): Reading => readingFor(keyOf(chart), semitones);

/** Writes the whole chart by an interval in one step for undo; gives the symbols that nobody understands, which stay. */
export const transposeDocument = (handle: ChartHandle, chart: Chart, reading: Reading): readonly string[] => {
  const { doc, origin } = handle;
  const { chart: next, left } = transposeChart(chart, reading);
  doc.transact(() => {
    if (next.head.key !== chart.head.key) setHead(doc, 'key', next.head.key, origin);
    next.sections.forEach((section, at) => {
      section.bars.forEach((bar, index) => {
        if (bar !== chart.sections[at]?.bars[index]) setBarText(doc, bar.id, bar.text, origin);
      });
    });
  }, origin);
  return left;
};
