import { readKey } from '../theory/key.ts';
import { accidentalsAt, fifthsOf, noteAt } from '../theory/pitch.ts';
import { plainSigns, printNote } from '../theory/plain-signs.ts';
import { type Reading, transposeSymbol } from '../theory/transpose.ts';
import { type BarToken, printBarText, readBarText } from './bar-text.ts';
import type { Chart } from './chart.ts';
import { DEFAULT_LEGS, readWord } from './read-word.ts';

export interface TransposedChart {
  readonly chart: Chart;
  /** Chord symbols that are not known and stand as they stood, each once. */
  readonly left: readonly string[];
}

/**
 * The chart written in another key: its key, every chord and every `key` word, by one exact interval; all else as it
 * stands. Unknown symbols stay as typed. Bars that hold nothing to transpose keep their text to the letter.
 *
 * Law: `transposeChart(transposeChart(chart, reading), inverseReading(reading))` sounds as `chart` does.
 */
export const transposeChart = (chart: Chart, reading: Reading): TransposedChart => {
  if (reading.fifths === 0) return { chart, left: [] };
  const legs = chart.road.length > 0 ? chart.road.map(({ name }) => name) : DEFAULT_LEGS;
  const left = new Set<string>();
  const sections = chart.sections.map((section) => ({
    ...section,
    bars: section.bars.map((bar) => {
      const tokens = readBarText(bar.text);
      const moved = tokens.map((token) => {
        if (token.kind === 'unknown') left.add(token.symbol);
        return transposeToken(token, reading, legs);
      });
      return moved.every((token, at) => token === tokens[at]) ? bar : { ...bar, text: printBarText(moved) };
    }),
  }));
  const { key } = chart.head;
  const head = key === undefined ? chart.head : { ...chart.head, key: transposeKeyText(key, reading) };
  return { chart: { ...chart, head, sections }, left: [...left] };
};

const transposeToken = (token: BarToken, reading: Reading, legs: readonly string[]): BarToken => {
  switch (token.kind) {
    case 'chord':
    case 'bass': {
      const push = token.pushed ? '<' : '';
      return { ...token, text: push + transposeSymbol(token.text.slice(push.length), reading) };
    }
    case 'word': {
      if (!token.closed || readWord(token.words, legs).mark?.kind !== 'key') return token;
      const [, before = '', key = ''] = /^(.*\bkey\s+)(.*)$/isu.exec(token.words) ?? [];
      return { ...token, text: `"${before}${transposeKeyText(key, reading)}"` };
    }
    default:
      return token;
  }
};

/** Enharmonic spellings lie this far apart on the line of fifths. */
const ENHARMONIC = 12;

/** A key as typed, its tonic moved; one that can't be read stays as it is. A tonic never gets a double accidental. */
const transposeKeyText = (text: string, { fifths }: Reading): string => {
  const key = readKey(text);
  if (!key) return text;
  let place = fifthsOf(key.tonic) + fifths;
  while (accidentalsAt(place) > 1) place += place > 0 ? -ENHARMONIC : ENHARMONIC;
  const tonic = /[♭♯𝄫𝄪]/u.test(text) ? printNote(noteAt(place)) : noteAt(place);
  const from = plainSigns(text).search(/\S/);
  return text.slice(0, from) + tonic + text.slice(from + key.tonic.length);
};
