import { describe, expect, it } from 'vitest';
import { GUITAR } from '../../../common/shapes/fretboard/fret-instrument.ts';
import { shapesOf } from '../../../common/shapes/fretboard/shapes-of.ts';
import { readChordSymbol } from '../../../common/theory/chord-symbol.ts';
import kinds from '../chords/musicxml-kinds.json' with { type: 'json' };

/** How each kind of MusicXML 4.0 (`kind-value`) is written in a chart, over C (MIDI 0 modulo 12). */
const WRITTEN: Readonly<Record<string, string>> = {
  major: 'C',
  minor: 'Cm',
  augmented: 'C+',
  diminished: 'Cdim',
  dominant: 'C7',
  'major-seventh': 'Cmaj7',
  'minor-seventh': 'Cm7',
  'diminished-seventh': 'Cdim7',
  'augmented-seventh': 'C7#5',
  'half-diminished': 'Cm7b5',
  'major-minor': 'CmM7',
  'major-sixth': 'C6',
  'minor-sixth': 'Cm6',
  'dominant-ninth': 'C9',
  'major-ninth': 'Cmaj9',
  'minor-ninth': 'Cm9',
  'dominant-11th': 'C11',
  'major-11th': 'Cmaj11',
  'minor-11th': 'Cm11',
  'dominant-13th': 'C13',
  'major-13th': 'Cmaj13',
  'minor-13th': 'Cm13',
  'suspended-second': 'Csus2',
  'suspended-fourth': 'Csus4',
  power: 'C5',
};

const FULL = ['full'] as const;

describe('shapes of each chord kind of MusicXML 4.0', () => {
  const rows = kinds.rows.filter(({ kind }) => WRITTEN[kind] !== undefined);

  it('are looked at for all kinds that a chart can write', () => {
    expect(rows).toHaveLength(Object.keys(WRITTEN).length);
  });

  it.each(rows)('[SHAPE-1] [SHAPE-2] $kind: its tones, none foreign, the guide tones always there', (row) => {
    const symbol = readChordSymbol(WRITTEN[row.kind] ?? '');
    if (symbol === null) throw new Error(`${row.kind} cannot be read`);
    const shapes = shapesOf(symbol, GUITAR);
    expect(shapes.length).toBeGreaterThan(10);
    const semitonesOf = (degree: RegExp) =>
      row.degrees.flatMap((name, i) => (degree.test(name) ? [row.semitones[i] ?? 0] : []));
    const guides = semitonesOf(/^b*[37]$/);
    const tonesOf = (midi: readonly number[]) => new Set(midi.map((pitch) => pitch % 12));
    const allowed = new Set(row.semitones.map((semitones) => semitones % 12));
    const wrong = shapes.filter(({ midi }) => {
      const tones = tonesOf(midi);
      return guides.some((guide) => !tones.has(guide)) || [...tones].some((tone) => !allowed.has(tone));
    });
    expect(wrong).toEqual([]);
    // Of a chord of up to five tones there is a shape with all of them.
    if (allowed.size <= 5)
      expect(
        shapesOf(symbol, GUITAR, { kinds: FULL }).some(({ midi }) => tonesOf(midi).size === allowed.size),
      ).toBe(true);
  });
});
