import chordSymbol from 'chord-symbol/lib/chord-symbol.js';
import teoria from 'teoria';
import { Note } from 'tonal';
import { describe, expect, it } from 'vitest';
import { readChordSymbol } from '../../../common/theory/chord-symbol.ts';
import { chordPitchClasses, chordTones } from '../../../common/theory/chord-tones.ts';
import symbols from './chord-symbols.json';
import harte from './harte-shorthand.json';
import lilypond from './lilypond-chords.json';
import kinds from './musicxml-kinds.json';
import spelled from './spelled-chords.json';

/** The chord of a symbol that must be readable. */
const chord = (text: string) => {
  const symbol = readChordSymbol(text);
  if (symbol === null) throw new Error(`"${text}" is not read`);
  return symbol;
};

const semitones = (text: string): number[] =>
  [...new Set(chordPitchClasses(chord(text)))].sort((one, other) => one - other);

const folded = (distances: readonly number[]): number[] =>
  [...new Set(distances.map((distance) => distance % 12))].sort((one, other) => one - other);

/** How the trade writes each MusicXML kind. */
const SYMBOL_OF_KIND: Readonly<Record<string, string>> = {
  augmented: 'C+',
  'augmented-seventh': 'C+7',
  diminished: 'Cdim',
  'diminished-seventh': 'Cdim7',
  dominant: 'C7',
  'dominant-11th': 'C11',
  'dominant-13th': 'C13',
  'dominant-ninth': 'C9',
  'half-diminished': 'Cø7',
  major: 'C',
  'major-11th': 'Cmaj11',
  'major-13th': 'Cmaj13',
  'major-minor': 'Cm(maj7)',
  'major-ninth': 'Cmaj9',
  'major-seventh': 'Cmaj7',
  'major-sixth': 'C6',
  minor: 'Cm',
  'minor-11th': 'Cm11',
  'minor-13th': 'Cm13',
  'minor-ninth': 'Cm9',
  'minor-seventh': 'Cm7',
  'minor-sixth': 'Cm6',
  power: 'C5',
  'suspended-fourth': 'Csus4',
  'suspended-second': 'Csus2',
};

describe('spellings of the trade (degrees from MusicXML 4.0)', () => {
  it.each(symbols.rows)('reads $symbol as $degrees', ({ symbol, root, bass, degrees, notes }) => {
    const read = chord(symbol);
    expect(read.root).toBe(root);
    expect(read.bass ?? null).toBe(bass);
    expect(read.degrees).toEqual(degrees);
    expect(chordTones(read)).toEqual(notes);
  });

  it.each(kinds.rows)('reads the symbol of the kind $kind: $definition', ({ kind, degrees }) => {
    expect(chord(SYMBOL_OF_KIND[kind] ?? `no symbol for ${kind}`).degrees).toEqual(degrees);
  });
});

describe('tones computed with LilyPond 2.24.1', () => {
  const SYMBOLS: Readonly<Record<string, string>> = {
    ...SYMBOL_OF_KIND,
    // LilyPond leaves the eleventh out of these two unless it is asked for.
    'dominant-13th': 'C13no11',
    'dominant-13th with 11': 'C13',
    'major-13th': 'Cmaj13no11',
    'major-13th with 11': 'Cmaj13',
    'minor-13th with 11': 'Cm13',
  };

  it.each(lilypond.rows)('$name has the tones of $lilypond', (row) => {
    expect(semitones(SYMBOLS[row.name] ?? `C${row.name}`)).toEqual(folded(row.semitones));
  });
});

describe('shorthand of Harte et al. 2005', () => {
  const SYMBOLS: Readonly<Record<string, string>> = { minmaj7: 'minmaj7', hdim7: 'ø7' };

  it.each(harte.rows)('$shorthand has the degrees $degrees', ({ shorthand, degrees }) => {
    expect(chord(`C${SYMBOLS[shorthand] ?? shorthand}`).degrees).toEqual(['1', ...degrees]);
  });
});

describe('spelled tones computed with music21 9.9.2', () => {
  const SUFFIXES: Readonly<Record<string, string>> = {
    'major triad': '',
    'minor triad': 'm',
    'diminished triad': '°',
    'dominant seventh chord': '7',
    'major seventh chord': 'maj7',
    'minor seventh chord': '-7',
    'half-diminished seventh chord': 'm7b5',
    'diminished seventh chord': 'o7',
  };

  it.each(spelled.rows)('$root $commonName is $notes', ({ root, commonName, notes }) => {
    expect(chordTones(chord(root + SUFFIXES[commonName]))).toEqual(notes);
  });
});

describe('second opinions', () => {
  /** Where the package differs from MusicXML, or does not read the spelling. */
  const CHORD_SYMBOL_DIFFERS = [
    ...['C6(9)', 'C∆7', 'C7+9', 'C7b13', 'C7b9b13', 'Cmaj11', 'C13', 'Cmaj13', 'C13#9'],
  ];
  const TEORIA_DIFFERS = [
    ...['C°', 'C69', 'C6(9)', 'Cm6/9', 'Cm69', 'Cmadd9', 'CΔ7', 'C∆7', 'CΔ', 'C-Δ7', 'C7+', 'C7+9', 'C7(9)'],
    ...['C7no3', 'C7(no3)', 'C7omit3', 'B♭6/9', 'C6/9/E', 'Cmaj7#11', 'CM7#11', 'C13sus4', 'C13sus', 'C7b13'],
    ...['C7b9b13', 'C7b9#9', 'F/G', 'F#maj7/A#', 'Cbdim7', 'Cbo7'],
  ];

  const spellings = symbols.rows.map(({ symbol }) => symbol);
  const parse = chordSymbol.chordParserFactory();

  it.each(spellings.filter((each) => !CHORD_SYMBOL_DIFFERS.includes(each)))(
    'chord-symbol hears the same in %s',
    (symbol) => {
      const other = parse(symbol);
      if ('error' in other) throw new Error(`chord-symbol does not read ${symbol}`);
      expect(semitones(symbol)).toEqual(folded(other.normalized.notes.map((note) => Note.get(note).chroma)));
    },
  );

  it.each(spellings.filter((each) => !TEORIA_DIFFERS.includes(each)))(
    'teoria spells %s the same',
    (symbol) => {
      const notes = teoria.chord(symbol).notes();
      expect(chordTones(chord(symbol))).toEqual(
        notes.map((note) => note.name().toUpperCase() + note.accidental().replace('x', '##')),
      );
    },
  );
});
