import { describe, expect, it } from 'vitest';
import { chordTones } from '../../../common/theory/chord-tones.ts';
import { printNumeral, readNumeral } from '../../../common/theory/harmony/numeral.ts';
import { numeralChord } from '../../../common/theory/harmony/numeral-chord.ts';
import { readingFor } from '../../../common/theory/transpose.ts';
import { keyOf, numerals } from '../../common/theory/harmony/progressions.ts';
import progressions from './jazz-progressions.json' with { type: 'json' };
import more from './many-accidentals.json' with { type: 'json' };
import published from './roman-numerals.json' with { type: 'json' };

type Row = (typeof more.rows)[number];

/** How the trade writes each quality after the root. */
const SYMBOL: Readonly<Record<string, string>> = {
  'major triad': '',
  'minor triad': 'm',
  'diminished triad': 'dim',
  'augmented triad': '+',
  'major seventh chord': 'maj7',
  'minor seventh chord': 'm7',
  'dominant seventh chord': '7',
  'half-diminished seventh chord': 'm7b5',
  'diminished seventh chord': 'dim7',
};

/** The row's figure as the trade writes it. */
const figureOf = ({ figure, commonName }: Row) => {
  const numeral = readNumeral(commonName === 'major seventh chord' ? figure.replace('7', 'maj7') : figure);
  if (numeral === null) throw new Error(`not read: ${figure}`);
  return numeral;
};

const symbolOf = ({ root, commonName }: Row): string => {
  const quality = SYMBOL[commonName];
  if (quality === undefined) throw new Error(`no symbol for a ${commonName}`);
  return root + quality;
};

/** The chord, and for an applied figure the chord it leads to. */
const progressionOf = (row: Row): string => {
  const { of } = figureOf(row);
  if (of === undefined) return symbolOf(row);
  const goal = numeralChord({ degree: of, figure: '' }, keyOf(row.key));
  return `| ${symbolOf(row)} | ${goal.root}${goal.degrees.includes('b3') ? 'm' : ''} |`;
};

describe('figures and chords in keys with many accidentals (music21 10.5.0)', () => {
  it.each(more.rows)('[HARM-6] $figure in $key has the notes $notes', (row) => {
    const chord = numeralChord(figureOf(row), keyOf(row.key));
    expect(chord.root).toBe(row.root);
    expect(chordTones(chord)).toEqual(row.notes);
  });

  it.each(more.rows)('[HARM-2] $notes in $key is $figure', (row) => {
    expect(numerals(row.key, progressionOf(row)).split(' ')[0]).toBe(printNumeral(figureOf(row)));
  });
});

const KEYS = Array.from({ length: 12 }, (_, i) => i - 6);

describe('figures and chords (music21 9.9.2)', () => {
  it.each(published.rows)('[HARM-6] $figure in $key has the notes $notes', (row) => {
    const chord = numeralChord(figureOf(row), keyOf(row.key));
    expect(chord.root).toBe(row.root);
    expect(chordTones(chord)).toEqual(row.notes);
  });

  it.each(published.rows)('[HARM-2] $notes in $key is $figure', (row) => {
    expect(numerals(row.key, progressionOf(row)).split(' ')[0]).toBe(printNumeral(figureOf(row)));
  });

  it('[HARM-5] every figure is the same in all keys', () => {
    const figures = new Map(published.rows.map((row) => [`${row.figure} ${row.key.split(' ')[1]}`, row]));
    expect(figures.size).toBe(54);
    for (const row of figures.values()) {
      const expected = printNumeral(figureOf(row));
      for (const semitones of KEYS) {
        const reading = readingFor(keyOf(row.key), semitones);
        expect(numerals(row.key, progressionOf(row), reading).split(' ')[0]).toBe(expected);
      }
    }
  });
});

describe('progressions of jazz (Open Music Theory)', () => {
  it.each(progressions.rows)('[HARM-11] $what in $key: $chords', ({ key, chords, numerals: expected }) => {
    expect(numerals(key, chords)).toBe(expected);
  });
});
