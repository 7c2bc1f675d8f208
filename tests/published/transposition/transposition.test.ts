import { Interval, Note } from 'tonal';
import { describe, expect, it } from 'vitest';
import { instrumentById } from '../../../common/theory/instruments.ts';
import { inverseReading, type Reading, transposeNote } from '../../../common/theory/transpose.ts';
import instruments from './transposing-instruments.json';
import rows from './transposition-rows.json';

const readingOf = (interval: string): Reading => {
  const { coord, semitones } = Interval.get(interval);
  return { fifths: coord?.[0] ?? Number.NaN, semitones };
};

describe('written notes computed with music21 9.9.2', () => {
  it.each(rows.rows)('$part reads $sounding as $written', ({ sounding, interval, written, writtenMidi }) => {
    const reading = readingOf(interval);
    expect(transposeNote(sounding, reading)).toBe(written);
    expect(Note.midi(transposeNote(sounding, reading))).toBe(writtenMidi);
    expect(transposeNote(written, inverseReading(reading))).toBe(sounding);
  });
});

describe('instruments as published', () => {
  const IDS: Readonly<Record<string, readonly string[]>> = {
    Piccolo: ['piccolo'],
    'Clarinet in Bb': ['clarinet'],
    'Clarinet in A': ['clarinet-in-a'],
    'Clarinet in Eb': ['clarinet-in-e-flat'],
    'Bass clarinet in Bb (treble clef)': ['bass-clarinet'],
    'Soprano saxophone in Bb': ['soprano-sax'],
    'Alto saxophone in Eb': ['alto-sax'],
    'Tenor saxophone in Bb': ['tenor-sax'],
    'Baritone saxophone in Eb': ['baritone-sax'],
    'Trumpet in Bb': ['trumpet'],
    'Horn in F': ['horn-in-f'],
    'English horn': ['cor-anglais'],
    'Alto flute in G': ['alto-flute'],
    Guitar: ['guitar'],
    'Double bass / bass guitar': ['double-bass', 'bass-guitar'],
  };

  it.each(instruments.rows)('$instrument sounds $soundsRelativeToWritten', ({ instrument, semitones }) => {
    const ids = IDS[instrument] ?? [];
    expect(ids).not.toEqual([]);
    for (const id of ids) expect(instrumentById(id)?.semitonesUp).toBe(0 - semitones);
  });
});
