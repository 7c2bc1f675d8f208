import type { Key } from './key.ts';
import { plainSigns, printNote } from './plain-signs.ts';

/** The customs of calling notes: B and B♭, H and B, or Si and Si♭. Charts are typed in the trade's way all the same. */
export const NOTE_NAMES = ['english', 'german', 'solfege'] as const;

export type NoteNames = (typeof NOTE_NAMES)[number];

const SYLLABLES: Readonly<Record<string, string>> = {
  C: 'Do',
  D: 'Re',
  E: 'Mi',
  F: 'Fa',
  G: 'Sol',
  A: 'La',
  B: 'Si',
};

/**
 * The note as people who call notes so read it, with the trade's signs: `Bb` → `B♭`, `B`, `Si♭`; `B` → `B`, `H`, `Si`.
 * In German the flat of H is B, and every other note has its letter and a sign (`H♯`, `H𝄫`, `E♭`).
 * Source: tests/published/note-names.
 * @param note in plain signs, without octave
 */
export function noteName(note: string, names: NoteNames): string {
  if (names === 'english') return printNote(note);
  const letter = note.slice(0, 1);
  const signs = printNote(note).slice(1);
  if (names === 'solfege') return (SYLLABLES[letter] ?? letter) + signs;
  return note === 'Bb' ? 'B' : (letter === 'B' ? 'H' : letter) + signs;
}

/** The key in words: `E♭ blues`, `H minor`, `Sol major`. */
export const keyName = ({ tonic, mode }: Key, names: NoteNames): string =>
  `${noteName(tonic, names)} ${mode}`;

const LETTER_OF: ReadonlyMap<string, string> = new Map(
  Object.entries(SYLLABLES).map(([letter, syllable]) => [syllable.toLowerCase(), letter]),
);
const ENGLISH = /^([a-g])(bb|##|b|#)?$/i;
const GERMAN = /^(?:([a-h])(isis|eses|is|es|bb|##|b|#)?|([ae])(ses|s))$/i;
const SOLFEGE = /^(do|re|ré|mi|fa|sol|la|si)(bb|##|b|#)?$/i;
const SIGN_OF: Readonly<Record<string, string>> = {
  isis: '##',
  is: '#',
  es: 'b',
  s: 'b',
  eses: 'bb',
  ses: 'bb',
};

/**
 * The note that somebody means who calls notes so, in plain signs; `null` where it is none. The other way round of
 * `noteName`; capitals don't matter. In German `H`, `B` and `Bb` are B, B♭ and B♭, and the syllables are read (`Fis`, `Es`);
 * `B#` and `Bbb`, which mean two notes, are none. Where syllables are sung, letters are read as well.
 *
 * Law: `readNoteName(noteName(note, names), names) === note` for every note with at most two signs.
 * @example readNoteName('B', 'german') // 'Bb'
 */
export function readNoteName(text: string, names: NoteNames): string | null {
  const plain = plainSigns(text);
  if (names === 'german') return readGerman(plain);
  const [, syllable, sung = ''] = (names === 'solfege' && SOLFEGE.exec(plain)) || [];
  if (syllable !== undefined) {
    return (LETTER_OF.get(syllable.toLowerCase().replace('é', 'e')) ?? '') + sung.toLowerCase();
  }
  const [, letter, signs = ''] = ENGLISH.exec(plain) ?? [];
  return letter === undefined ? null : letter.toUpperCase() + signs.toLowerCase();
}

function readGerman(plain: string): string | null {
  const [, letter, signs = '', vowel, short = ''] = GERMAN.exec(plain) ?? [];
  const name = (letter ?? vowel)?.toUpperCase();
  if (name === undefined) return null;
  const typed = (signs || short).toLowerCase();
  const sign = SIGN_OF[typed] ?? typed;
  if (name === 'B') return sign === '' || sign === 'b' ? 'Bb' : null;
  return (name === 'H' ? 'B' : name) + sign;
}
