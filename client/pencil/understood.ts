import type { BarMusic } from '../../common/chart/bar-music.ts';
import { printBarText, readBarText } from '../../common/chart/bar-text.ts';
import type { Bar, Chart } from '../../common/chart/chart.ts';
import { type Found, spotKey } from '../../common/chart/found.ts';
import type { Problem } from '../../common/chart/problem.ts';
import { resolveBars } from '../../common/chart/read-bars.ts';
import { readChordSymbol } from '../../common/theory/chord-symbol.ts';
import { chordTones } from '../../common/theory/chord-tones.ts';

/** How a stretch of a bar was understood. */
export interface Part {
  /** "2 beats". */
  readonly beats: string;
  /** The chord as typed, "rest", "no chord". */
  readonly name: string;
  /** Its tones from the root; none for a rest or an unknown symbol. */
  readonly tones: readonly string[];
}

export interface Understood {
  readonly parts: readonly Part[];
  /** The writer's words that act, as "break, 2 bars" would be read. */
  readonly words: readonly string[];
  readonly problems: readonly BarProblem[];
}

export interface BarProblem extends Problem {
  /** The bar's text with the suggestion taken; absent where there is none. */
  readonly mended?: string;
}

/** Suggestions that are the whole of the bar; others stand for the token they are at. */
const WHOLE_BAR = new Set(['too-few-pulses', 'uneven-share', 'too-many-pulses', 'empty-bar']);

/** A bar's text with the suggestion taken; undefined where there is none. */
export const mendText = (text: string, bar: string, { at, kind, suggestion }: Found): string | undefined => {
  if (suggestion === undefined || WHOLE_BAR.has(kind)) return suggestion;
  return printBarText(
    readBarText(text).map((token, index) =>
      spotKey(bar, index) === at ? { ...token, text: suggestion } : token,
    ),
  );
};

const QUARTERS: Readonly<Record<number, string>> = { 0.25: '¼', 0.5: '½', 0.75: '¾' };

/** @example beatWords(1.5) // '1½ beats' */
export const beatWords = (pulses: number): string => {
  const whole = Math.floor(pulses);
  const part = pulses - whole;
  const rest = QUARTERS[part] ?? (part === 0 ? '' : `.${Math.round(part * 100)}`);
  const number = whole === 0 && rest !== '' && !rest.startsWith('.') ? rest : `${whole}${rest}`;
  return `${number} ${pulses === 1 || (whole === 0 && part > 0) ? 'beat' : 'beats'}`;
};

const NAMES = { rest: 'rest', noChord: 'no chord' } as const;

const partsOf = (music: BarMusic): Part[] =>
  music.cells.map((cell) => {
    const symbol = cell.kind === 'chord' ? readChordSymbol(cell.symbol) : null;
    const name = cell.kind === 'rest' || cell.kind === 'noChord' ? NAMES[cell.kind] : cell.symbol;
    return {
      beats: beatWords(cell.lengthPulses),
      name: cell.carried ? `${name} goes on` : cell.pushed ? `${name}, an eighth early` : name,
      tones: symbol === null ? [] : chordTones(symbol),
    };
  });

/** The chart as it would be with this text in the bar. */
export const withBarText = (chart: Chart, bar: string, text: string): Chart => ({
  ...chart,
  sections: chart.sections.map((section) =>
    section.bars.some(({ id }) => id === bar)
      ? { ...section, bars: section.bars.map((one): Bar => (one.id === bar ? { ...one, text } : one)) }
      : section,
  ),
});

/** How a bar's text is understood where it stands; null where there is no such bar. */
export const understand = (chart: Chart, bar: string, text: string): Understood | null => {
  const { music, found } = resolveBars(withBarText(chart, bar, text));
  const read = music.get(bar);
  if (read === undefined) return null;
  return {
    parts: partsOf(read),
    words: read.words.filter(({ mark }) => mark !== undefined).map((word) => word.text),
    problems: found
      .filter(({ id }) => id === bar)
      .map((one) => {
        const mended = mendText(text, bar, one);
        return mended === undefined ? one : { ...one, mended };
      }),
  };
};
