import { readChordSymbol } from '../../../../common/theory/chord-symbol.ts';
import { analyse, type ChordAnalysis, type TimedChord } from '../../../../common/theory/harmony/analyse.ts';
import { printNumeral } from '../../../../common/theory/harmony/numeral.ts';
import { type Key, readKey } from '../../../../common/theory/key.ts';
import { type Reading, transposeKey, transposeSymbol } from '../../../../common/theory/transpose.ts';

export const keyOf = (text: string): Key => {
  const key = readKey(text);
  if (key === null) throw new Error(`not a key: ${text}`);
  return key;
};

/** The chord of a symbol that must be readable. */
export const chord = (text: string) => {
  const symbol = readChordSymbol(text);
  if (symbol === null) throw new Error(`"${text}" is not read`);
  return symbol;
};

/** Chords of a progression written in bars, `| Cmaj7 | Dm7 G7 | % |`, shared equally. */
export const timed = (keyText: string, text: string, reading?: Reading): TimedChord[] => {
  const key = reading ? transposeKey(keyOf(keyText), reading) : keyOf(keyText);
  const chords: TimedChord[] = [];
  for (const bar of text.split('|').map((each) => each.trim())) {
    if (bar === '') continue;
    const symbols = bar.split(/ +/);
    for (const typed of symbols) {
      const symbol =
        typed === '%' ? chords.at(-1)?.symbol : chord(reading ? transposeSymbol(typed, reading) : typed);
      if (symbol) chords.push({ symbol, key, bars: 1 / symbols.length });
    }
  }
  return chords;
};

/** Analysis of a progression that is played once and ends. */
export const analysed = (keyText: string, text: string, reading?: Reading): ChordAnalysis[] =>
  analyse(timed(keyText, text, reading));

/** Its numerals in a row; a chord heard in another key has it in brackets. */
export const numerals = (keyText: string, text: string, reading?: Reading): string =>
  analysed(keyText, text, reading)
    .map(({ numeral }) => printNumeral(numeral))
    .join(' ');

/** The numeral of the first chord, the others being what follows. */
export const first = (keyText: string, text: string): string => numerals(keyText, text).split(' ')[0] ?? '';

/** Progressions of every kind, for laws that hold of all. */
export const PROGRESSIONS: readonly (readonly [key: string, text: string])[] = [
  ['F blues', '| F7 | Bb7 | F7 | Cm7 F7 | Bb7 | Bdim7 | F7/C | Am7b5 D7b9 | Gm7 | C7 | F7 D7 | Gm7 C7 |'],
  ['C minor blues', '| Cm7 | Fm7 | Cm7 | C7alt | Fm7 | % | Cm7 | % | Ab7 | G7alt | Cm7 | Dm7b5 G7 |'],
  [
    'C',
    '| Cmaj7 C#dim7 | Dm7 D#dim7 | Em7 A7b9 | Dm7 Db7 | C6 | Fm7 Bb7 | Cmaj7 C7 | F F#dim7 | C/G Am7 | F/G G7 |',
  ],
  [
    'Ab',
    '| Abmaj7 | Ebm7 Ab7 | Dbmaj7 | Dbm7 Gb7 | Cm7 | Bdim7 | Bbm7 | A7#11 | Fm7 Bb7 | Bbm7 Eb7sus | Ab6/9 |',
  ],
  [
    'G minor',
    '| Cm7 | F7 | Bbmaj7 | Ebmaj7 | Am7b5 | D7 | Gm6 | G7b9 | Gm(maj7) | Ab7 | Gm | Em7b5 A7 | D7sus D+ |',
  ],
  [
    'Bb',
    '| Bbmaj7 | % | C#m7 | F#7 | Bmaj7 | % | Bm7 | E7 | Amaj7 | % | Am7 | D7 | Gmaj7 | % | Gm7 C7 | Cm7 F7 |',
  ],
  ['D dorian', '| Dm7 | G7 | Dm7 | % | Ebm7 | % | % | % | Dm7 | Cmaj7 Fmaj7 | A7 |'],
  ['G mixolydian', '| G7 | F | C/E | Dm7 | G7 |'],
  ['E', '| E | G#7 C#m | F#7 B7 | Am6 | E/G# Gdim7 | F#m7 Cmaj7 | D | E |'],
];
