import { type NoteNames, noteName } from '../../theory/note-name.ts';
import { fifthsOf, noteAt, pitchClassAt, pitchClassOf } from '../../theory/pitch.ts';

const RANKS: readonly (readonly string[])[] = [[''], ['low ', 'high '], ['low ', 'middle ', 'high ']];

/**
 * What a player calls each string: its note, and how high it is where several have that note. Strings of one pitch, and
 * more than three of one note, are told apart by their octave and their number, counted from the last one.
 * @param openMidi in the order in which the strings lie
 * @example stringNames([40, 45, 50, 55, 59, 64], 'english') // ['low E', 'A', 'D', 'G', 'B', 'high E']
 */
export function stringNames(openMidi: readonly number[], names: NoteNames): readonly string[] {
  const notes = spelledTogether(openMidi.map((pitch) => pitch % 12));
  return openMidi.map((pitch, string) => {
    const name = noteName(notes[string] ?? 'C', names);
    const alike = openMidi.filter((other) => other % 12 === pitch % 12).sort((a, b) => a - b);
    const ranks = new Set(alike).size === alike.length ? RANKS[alike.length - 1] : undefined;
    return ranks === undefined
      ? `${name}${Math.floor(pitch / 12) - 1} (${openMidi.length - string})`
      : `${ranks[alike.indexOf(pitch)]}${name}`;
  });
}

/**
 * The open strings as they can be typed, with octaves.
 * @example openStringsText([35, 40, 45], 'german') // 'H1 E2 A2'
 */
export function openStringsText(openMidi: readonly number[], names: NoteNames): string {
  const notes = spelledTogether(openMidi.map((pitch) => pitch % 12));
  return openMidi
    .map((pitch, string) => {
      const note = notes[string] ?? 'C';
      // The octave is that of the letter: the B♯ below C4 is B♯3.
      const octave = (pitch - pitchClassOf(note.slice(0, 1)) - alterationOf(note)) / 12 - 1;
      return noteName(note, names) + octave;
    })
    .join(' ');
}

/** Semitones that its signs raise a note. */
const alterationOf = (note: string): number => (fifthsOf(note) - fifthsOf(note.slice(0, 1))) / 7;

/** The notes of pitch classes, so spelled that they lie as near to each other as they can; of two ways the plainer. */
function spelledTogether(pitchClasses: readonly number[]): readonly string[] {
  const ways = [2, 1, 3, 0, 4, -1, 5, -2, 6, -3, 7, -4, 8].map((middle) =>
    pitchClasses.map((pitchClass) => placeNear(pitchClass, middle)),
  );
  const spread = (places: readonly number[]): number => Math.max(...places) - Math.min(...places);
  const [first = [], ...others] = ways;
  return others.reduce((best, way) => (spread(way) < spread(best) ? way : best), first).map(noteAt);
}

/** The place on the line of fifths, within half of it to either side of a middle. */
const placeNear = (pitchClass: number, middle: number): number =>
  Array.from({ length: 12 }, (_, i) => middle - 6 + i).find((place) => pitchClassAt(place) === pitchClass) ??
  middle;
