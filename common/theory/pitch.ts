import { Note } from 'tonal';

/**
 * Notes as places on the line of fifths: … E♭ −3, B♭ −2, F −1, C 0, G 1, D 2 … F♯ 6, C♯ 7 …
 * Every spelling has exactly one place, so an interval is a difference of places and transposition is
 * addition; enharmonic spellings lie 12 apart. A pitch class is `7 · place mod 12`.
 */
const LETTERS = 'FCGDAEB';

/** The pattern of a root, a bass or a tonic in plain signs: `C`, `Bb`, `F##`. */
export const NOTE_PATTERN = '[A-G](?:bb|##|b|#)?';

/** The place of a note on the line of fifths (`C` 0, `Bb` −2, `F#` 6); an octave number is ignored. */
export function fifthsOf(note: string): number {
  const [fifths] = Note.get(note).coord ?? [];
  if (fifths === undefined) throw new Error(`not a note: "${note}", expected a name such as Bb or F#4`);
  return fifths;
}

/** The note at a place on the line of fifths: 0 → `C`, −3 → `Eb`, 13 → `F##`. */
export function noteAt(fifths: number): string {
  const sharps = Math.floor((fifths + 1) / 7);
  const letter = LETTERS[fifths + 1 - 7 * sharps];
  if (letter === undefined)
    throw new Error(`not a place on the line of fifths: ${fifths}, expected a whole number`);
  return letter + (sharps < 0 ? 'b'.repeat(-sharps) : '#'.repeat(sharps));
}

/** How many accidentals the note at a place has: `Bb` 1, `F##` 2. */
export const accidentalsAt = (fifths: number): number => Math.abs(Math.floor((fifths + 1) / 7));

/** The note at a place by a name without double accidentals: 14 → `D`. For notes in passing; a chord keeps its spelling. */
export const plainNoteAt = (fifths: number): string =>
  noteAt(accidentalsAt(fifths) < 2 ? fifths : fifths - 12 * Math.sign(fifths));

/** The pitch class of a place, C = 0 … B = 11. */
export const pitchClassAt = (fifths: number): number => (((fifths * 7) % 12) + 12) % 12;

/** The pitch class of a note, C = 0 … B = 11; `Cb` is 11. */
export const pitchClassOf = (note: string): number => pitchClassAt(fifthsOf(note));
