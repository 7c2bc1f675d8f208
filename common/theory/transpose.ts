import { Note } from 'tonal';
import { readChordSymbol } from './chord-symbol.ts';
import { type Key, makeKey } from './key.ts';
import { accidentalsAt, fifthsOf, NOTE_PATTERN, noteAt } from './pitch.ts';
import { plainSigns, printNote } from './plain-signs.ts';

/**
 * How a part reads what sounds: an exact interval. Law: `fifths · 7 ≡ semitones (mod 12)`.
 */
export interface Reading {
  /** The shift on the line of fifths, which settles every spelling. */
  readonly fifths: number;
  /** Written minus sounding pitch, octaves included. */
  readonly semitones: number;
  /** The key in which it is read, for the names of notes outside it; absent where they only move. */
  readonly key?: Key;
}

/** A concert part: everything as it stands. */
export const CONCERT: Reading = { fifths: 0, semitones: 0 };

/** Enharmonic spellings lie this far apart on the line of fifths. */
const ENHARMONIC = 12;

/**
 * The reading that puts a chart in `concertKey` up by `semitones` (an instrument's `semitonesUp` and the cues
 * of the evening added together), so that the new key has the fewest accidentals; at six of either, flats. Where nothing
 * but octaves is moved, the writer's spelling stands. Without a key the chart counts as C major.
 *
 * Distances add up before a reading is looked for, since each reader's key is chosen anew:
 * a tenor sax after "up a half step" reads `readingFor(key, 14 + 1)`.
 *
 * @example readingFor(readKey('Eb blues'), 9) // { fifths: 3, semitones: 9 }: C blues
 */
export function readingFor(concertKey: Key | null, semitones: number): Reading {
  const least = (((semitones * 7) % ENHARMONIC) + ENHARMONIC) % ENHARMONIC;
  if (least === 0) return { fifths: 0, semitones };
  const signature = concertKey?.fifths ?? 0;
  // The one place in −6 … 5 that is a whole number of enharmonic steps away.
  const target = ((((signature + least + 6) % ENHARMONIC) + ENHARMONIC) % ENHARMONIC) - 6;
  const moved = { fifths: target - signature, semitones };
  return concertKey === null ? moved : { ...moved, key: transposeKey(concertKey, moved) };
}

/** The reading that undoes another: from what is written back to what sounds. */
export function inverseReading(reading: Reading): Reading {
  return { fifths: 0 - reading.fifths, semitones: 0 - reading.semitones };
}

/**
 * The note as read, by the exact interval, never respelled; with an octave where it has one:
 * `Db4` on a tenor sax → `Eb5`.
 */
export function transposeNote(note: string, { fifths, semitones }: Reading): string {
  const name = noteAt(fifthsOf(note) + fifths);
  const { height, oct } = Note.get(note);
  if (oct === undefined) return name;
  const octave = 4 + (height + semitones - Note.get(`${name}4`).height) / 12;
  if (!Number.isInteger(octave)) {
    throw new Error(
      `not a reading: ${fifths} fifths, ${semitones} semitones, expected fifths · 7 ≡ semitones (mod 12)`,
    );
  }
  return name + octave;
}

/** The key as read. Its signature stays in step, also where it has more than six accidentals. */
export function transposeKey(key: Key, reading: Reading): Key {
  return makeKey(noteAt(fifthsOf(key.tonic) + reading.fifths), key.mode);
}

const BASS_ALONE = new RegExp(`^/(${NOTE_PATTERN})$`);

/**
 * The symbol as read: root and bass moved, everything else as typed (`E♭-7/D♭` → `F-7/E♭`; ♭ stays ♭, b stays b).
 * Root and bass move by one interval; where either would need a double accidental, both are respelled. So are
 * B♯, E♯, C♭ and F♭ where the key in which it is read does not have them: B7 in D♭, read in D, is C7, not B♯7.
 * A bass alone (`/G`) is moved too. An unknown symbol comes back unchanged.
 */
export function transposeSymbol(text: string, reading: Reading): string {
  if (reading.fifths === 0) return text;
  const alone = BASS_ALONE.exec(plainSigns(text).trim())?.[1];
  if (alone !== undefined) {
    const [place = 0] = inPlainNames([fifthsOf(alone) + reading.fifths], reading.key);
    return `${text.slice(0, text.indexOf('/') + 1)}${inStyleOf(text, noteAt(place))}`;
  }
  const symbol = readChordSymbol(text);
  if (symbol === null) return text;
  const { root, bass, typed } = symbol;
  const moved = [root, ...(bass === undefined ? [] : [bass])].map((note) => fifthsOf(note) + reading.fifths);
  const [newRoot = '', newBass = ''] = inPlainNames(moved, reading.key).map((place) =>
    inStyleOf(text, noteAt(place)),
  );
  // A sign takes as many code units as its plain form, so the plain names tell where the typed ones end.
  const middle = typed.slice(root.length, bass === undefined ? undefined : typed.length - bass.length);
  return text.replace(typed, () => newRoot + apartFrom(newRoot, middle) + newBass);
}

/** What follows a root, with its first alteration in brackets where the root would swallow the sign: `B` and `b5`. */
const apartFrom = (root: string, rest: string): string =>
  readChordSymbol(root + rest.replace(/\/$/, ''))?.root === plainSigns(root)
    ? rest
    : rest.replace(/^[b#♭♯]+\d+/u, (alteration) => `(${alteration})`);

/** The scale of the key has the place, in minor also its leading tone: B♯ in C♯ minor. */
const isInKey = ({ tonic, mode, fifths }: Key, place: number): boolean =>
  (place >= fifths - 1 && place <= fifths + 5) || (mode.startsWith('minor') && place === fifthsOf(tonic) + 5);

/** From a minor third to a major seventh above the root on the line of fifths: C♯7/E♯ is no C♯7/F. */
const isInChord = (root: number, bass: number): boolean => bass - root >= -3 && bass - root <= 5;

/**
 * The places of root and bass without double accidentals and, where the key is known, without names that nobody
 * expects there: both moved by the same enharmonic step if that does it, else each by its own.
 */
function inPlainNames(places: readonly number[], key: Key | undefined): number[] {
  const isPlain = (place: number): boolean =>
    // From G♭ to A♯ a note goes by its own name; beyond, it is a white key under another one's: F♭, C♭, E♯, B♯.
    accidentalsAt(place) < 2 && (key === undefined || (place > -7 && place < 11) || isInKey(key, place));
  const areExpected = ([root = 0, bass]: readonly number[]): boolean =>
    isPlain(root) &&
    (bass === undefined || isPlain(bass) || (accidentalsAt(bass) < 2 && isInChord(root, bass)));
  for (const step of [0, -ENHARMONIC, ENHARMONIC, -2 * ENHARMONIC, 2 * ENHARMONIC]) {
    const moved = places.map((place) => place + step);
    if (areExpected(moved)) return moved;
  }
  return places.map((place) => {
    let moved = place;
    while (!isPlain(moved)) moved += place > 0 ? -ENHARMONIC : ENHARMONIC;
    return moved;
  });
}

/** The note with the accidentals its writer uses: ♭ and ♯ if the text has any, else b and #. */
const inStyleOf = (text: string, note: string): string => (/[♭♯𝄫𝄪]/u.test(text) ? printNote(note) : note);
