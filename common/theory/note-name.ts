import type { Key } from './key.ts';
import { printNote } from './plain-signs.ts';

/** The customs of calling notes: B and B♭, H and B, or Si and Si♭. Charts are typed in the trade's way all the same. */
export const NOTE_NAMES = ['english', 'german', 'solfege'] as const;

export type NoteNames = (typeof NOTE_NAMES)[number];

/** What each letter is called where notes are sung. */
export const SYLLABLES: Readonly<Record<string, string>> = {
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
