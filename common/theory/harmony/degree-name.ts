import type { ChordCore, Family } from './chord-core.ts';
import type { KeyFrame } from './key-frame.ts';
import type { Numeral } from './numeral.ts';
import { contains, semitonesUp } from './pitch-set.ts';

/** Names by semitones above the tonic, after the major scale. */
const AFTER_MAJOR = ['I', 'bII', 'II', 'bIII', 'III', 'IV', '#IV', 'V', 'bVI', 'VI', 'bVII', 'VII'] as const;
/** After the natural minor scale, capitals. */
const AFTER_MINOR = ['I', 'bII', 'II', 'III', '#III', 'IV', '#IV', 'V', 'VI', '#VI', 'VII', '#VII'] as const;
/** After the minor scale, small: a minor or diminished chord on the sixth or seventh stands on the raised degree. */
const AFTER_MINOR_SMALL = [
  'i',
  'bii',
  'ii',
  'iii',
  '#iii',
  'iv',
  '#iv',
  'v',
  'bvi',
  'vi',
  'bvii',
  'vii',
] as const;
/** A diminished chord on its way up, and down. */
const RISING = ['I', '#I', 'II', '#II', 'III', 'IV', '#IV', 'V', '#V', 'VI', '#VI', 'VII'] as const;
const FALLING = ['I', 'bII', 'II', 'bIII', 'III', 'IV', 'bV', 'V', 'bVI', 'VI', 'bVII', 'VII'] as const;

/** The same after the natural minor scale. */
const RISING_IN_MINOR = [
  'I',
  '#I',
  'II',
  '#II',
  '#III',
  'IV',
  '#IV',
  'V',
  '#V',
  '#VI',
  'VII',
  '#VII',
] as const;
const FALLING_IN_MINOR = [
  'I',
  'bII',
  'II',
  'III',
  '#III',
  'IV',
  'bV',
  'V',
  'VI',
  '#VI',
  'VII',
  '#VII',
] as const;

type Degrees = readonly string[];

const at = (degrees: Degrees, semitones: number): string => {
  const name = degrees[semitones];
  if (name === undefined) throw new Error(`not 0 to 11 semitones: ${semitones}`);
  return name;
};

const isSmall = (family: Family): boolean =>
  family === 'minor' || family === 'half-diminished' || family === 'diminished';

/**
 * The degree of a chord in plain signs, small for a minor third: `bVI`, `ii`, `#iv`.
 * @param semitones of its root above the tonic, 0–11
 */
export function degreeName(frame: KeyFrame, semitones: number, family: Family): string {
  if (frame.namesAsMinor) return at(isSmall(family) ? AFTER_MINOR_SMALL : AFTER_MINOR, semitones);
  // A half-diminished chord there is on the raised fourth, a major one on the lowered fifth.
  const name = semitones === 6 && family === 'major' ? 'bV' : at(AFTER_MAJOR, semitones);
  return isSmall(family) ? name.toLowerCase() : name;
}

/** The degree of a passing diminished chord, always in capitals, named by where it goes. */
export function passingDegreeName(
  { namesAsMinor }: KeyFrame,
  semitones: number,
  direction: 'up' | 'down',
): string {
  if (namesAsMinor) return at(direction === 'up' ? RISING_IN_MINOR : FALLING_IN_MINOR, semitones);
  return at(direction === 'up' ? RISING : FALLING, semitones);
}

/**
 * The degree as the goal of a dominant: in the size of the chord that the key has there (`ii`, `V`, `bVI`), else
 * of the chord that really comes. The fifth of a minor key is V.
 */
export function goalName(frame: KeyFrame, semitones: number, comes: Family | null): string {
  const own = ownFamily(frame, semitones);
  return degreeName(frame, semitones, own ?? (comes !== null && isSmall(comes) ? 'minor' : 'major'));
}

/** The triad that the key has on a degree; null where the root is foreign to it. */
export function ownFamily(frame: KeyFrame, semitones: number): Family | null {
  const { tones } = frame.home[0];
  const root = (frame.tonic + semitones) % 12;
  if (!contains(tones, root)) return null;
  if (frame.isMinor && semitones === 7) return 'major';
  const has = (above: number): boolean => contains(tones, (root + above) % 12);
  if (has(4)) return 'major';
  return has(7) ? 'minor' : 'diminished';
}

/** Semitones of a pitch class above the tonic. */
export const aboveTonic = (frame: KeyFrame, pitchClass: number): number =>
  semitonesUp(frame.tonic, pitchClass);

/** The chord's numeral by its degree alone; without a third it has the size of the key's own chord. */
export function plainNumeral(frame: KeyFrame, { root, family, figure }: ChordCore): Numeral {
  const semitones = aboveTonic(frame, root);
  const isOpen = family === 'major' && figure.includes('sus');
  const size = isOpen ? (ownFamily(frame, semitones) ?? family) : family;
  return { degree: degreeName(frame, semitones, size), figure };
}
