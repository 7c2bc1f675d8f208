import { describe, expect, it } from 'vitest';
import { readTuning } from '../../../common/shapes/fretboard/tuning.ts';
import { noteName } from '../../../common/theory/note-name.ts';
import { printNote } from '../../../common/theory/plain-signs.ts';
import { readNoteName } from '../../../common/theory/read-note-name.ts';
import { rows } from './note-names.json';

const SIGNS = ['𝄫', '♭', '', '♯', '𝄪'];

/** "Heses" → "H𝄫": the syllables -is and -es of a German name as signs; Es and As are short for Ees and Aes. */
const withSigns = (german: string): string => {
  const [, letter = '', syllables = ''] = /^([A-H])((?:is|es|s)*)$/.exec(german) ?? [];
  const whole = syllables.startsWith('s') ? `e${syllables}` : syllables;
  const sharps = (whole.match(/is/g) ?? []).length - (whole.match(/es/g) ?? []).length;
  return letter + (SIGNS[sharps + 2] ?? '?');
};

const ITALIAN_SIGNS: Readonly<Record<string, string>> = {
  '': '',
  bemolle: '♭',
  'doppio bemolle': '𝄫',
  diesis: '♯',
  'doppio diesis': '𝄪',
};

describe('names of notes (music21 10.5.0)', () => {
  it.each(rows)('$note is $german', ({ note, german }) => {
    expect(noteName(note, 'german')).toBe(withSigns(german));
  });

  it.each(rows)('$note is $italian', ({ note, italian }) => {
    const [, syllable = '', sign = ''] = /^(\S+) ?(.*)$/.exec(italian) ?? [];
    expect(noteName(note, 'solfege').toLowerCase()).toBe(syllable + (ITALIAN_SIGNS[sign] ?? '?'));
  });

  it.each(rows)('$note stays as it is in English', ({ note }) => {
    expect(noteName(note, 'english')).toBe(printNote(note));
  });

  it.each(rows)('$german is read as $note', ({ note, german }) => {
    expect(readNoteName(german, 'german')).toBe(note);
    expect(readNoteName(german.toLowerCase(), 'german')).toBe(note);
    expect(readNoteName(noteName(note, 'german'), 'german')).toBe(note);
  });

  it.each(rows)('$italian is read as $note', ({ note, italian }) => {
    expect(readNoteName(noteName(note, 'solfege'), 'solfege')).toBe(note);
    const typed = `${italian}3 ${italian}3 ${italian}3`;
    const inSigns = `${note}3 ${note}3 ${note}3`;
    expect(readTuning(typed, [], 'solfege')).toEqual(readTuning(inSigns, []));
  });

  it('no two notes have one name', () => {
    for (const names of ['english', 'german', 'solfege'] as const) {
      expect(new Set(rows.map(({ note }) => noteName(note, names))).size).toBe(rows.length);
    }
  });
});
