import { fifthsOf, NOTE_PATTERN } from './pitch.ts';
import { plainSigns, printNote } from './plain-signs.ts';

/**
 * Each mode and how many fifths its signature lies above that of the major key on the same tonic.
 * A blues in a major tonality is written with the signature of its major key, since I, IV and V are all
 * dominant sevenths (common practice, no source); the modes are those of the major scale.
 */
const SIGNATURE_SHIFT = {
  major: 0,
  minor: -3,
  blues: 0,
  'minor blues': -3,
  ionian: 0,
  dorian: -2,
  phrygian: -4,
  lydian: 1,
  mixolydian: -1,
  aeolian: -3,
  locrian: -5,
} as const;

export type Mode = keyof typeof SIGNATURE_SHIFT;

export interface Key {
  /** In plain signs: `Eb`. */
  readonly tonic: string;
  readonly mode: Mode;
  /** The signature: sharps above 0, flats below. */
  readonly fifths: number;
}

const SHORT_MODES: Readonly<Record<string, Mode>> = {
  '': 'major',
  maj: 'major',
  min: 'minor',
  m: 'minor',
  '-': 'minor',
  'blues minor': 'minor blues',
  'blues major': 'blues',
  'major blues': 'blues',
  'm blues': 'minor blues',
  'min blues': 'minor blues',
  '- blues': 'minor blues',
};

const KEY = new RegExp(`^(${NOTE_PATTERN}) *(.*)$`);

/**
 * The key of a `key` header or word: a tonic, then nothing, `major`/`maj`, `minor`/`m`/`-`, `blues`,
 * `minor blues` or a mode; `null` where it is none of these. Capitals of the words don't matter; the tonic is a
 * capital letter, as every root (`readKey('eb')` is `null`).
 *
 * @example readKey('E♭ blues') // { tonic: 'Eb', mode: 'blues', fifths: -3 }
 */
export function readKey(text: string): Key | null {
  const found = KEY.exec(plainSigns(text).trim());
  if (found === null) return null;
  const [, tonic = '', word = ''] = found;
  const mode = word === 'M' ? 'major' : modeOf(word.toLowerCase().replace(/ +/g, ' '));
  return mode === null ? null : makeKey(tonic, mode);
}

function modeOf(word: string): Mode | null {
  if (Object.hasOwn(SIGNATURE_SHIFT, word)) return word as Mode;
  return Object.hasOwn(SHORT_MODES, word) ? (SHORT_MODES[word] ?? null) : null;
}

/** The key on a tonic in plain signs; its signature follows from the mode. */
export function makeKey(tonic: string, mode: Mode): Key {
  return { tonic, mode, fifths: fifthsOf(tonic) + SIGNATURE_SHIFT[mode] };
}

/** The key in words for people: `E♭ blues`, `F♯ minor`, `C major`. Law: `readKey(printKey(key))` equals `key`. */
export function printKey(key: Key): string {
  return `${printNote(key.tonic)} ${key.mode}`;
}
