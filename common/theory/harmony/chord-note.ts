import { noteAt, plainNoteAt } from '../pitch.ts';

/**
 * A note of a chord for whoever plays it: as the chord spells it, but in a diminished seventh chord without double
 * accidentals, as players write them: the
 * seventh of `Abdim7` is F. Common practice, no source.
 * @param place on the line of fifths
 * @param degrees those of the chord
 * @example chordNote(-12, ['1', 'b3', 'b5', 'bb7']) // 'C', not 'Dbb'
 */
export const chordNote = (place: number, degrees: readonly string[]): string =>
  degrees.includes('bb7') ? plainNoteAt(place) : noteAt(place);
