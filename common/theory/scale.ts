import { Interval, ScaleType } from 'tonal';
import { fifthsOf, noteAt, pitchClassAt } from './pitch.ts';

/** Scales by the names that players use, and what tonal calls them where that differs. */
const SCALES = {
  major: 'major',
  dorian: 'dorian',
  phrygian: 'phrygian',
  lydian: 'lydian',
  mixolydian: 'mixolydian',
  'natural minor': 'aeolian',
  locrian: 'locrian',
  'harmonic minor': 'harmonic minor',
  'melodic minor': 'melodic minor',
  'harmonic major': 'harmonic major',
  'locrian ♮2': 'locrian #2',
  'lydian augmented': 'lydian augmented',
  'lydian dominant': 'lydian dominant',
  'mixolydian ♭13': 'mixolydian b6',
  'phrygian dominant': 'phrygian dominant',
  altered: 'altered',
  'half-whole diminished': 'half-whole diminished',
  'whole-half diminished': 'whole-half diminished',
  'whole tone': 'whole tone',
  blues: 'blues',
  'major blues': 'major blues',
  'major pentatonic': 'major pentatonic',
  'minor pentatonic': 'minor pentatonic',
} as const;

export type ScaleName = keyof typeof SCALES;

export const SCALE_NAMES = Object.keys(SCALES) as readonly ScaleName[];

/** Places on the line of fifths above the tonic, in rising order of pitch. */
const FIFTHS: ReadonlyMap<ScaleName, readonly number[]> = new Map(
  SCALE_NAMES.map((name) => [name, ScaleType.get(SCALES[name]).intervals.map(fifthsOfInterval)]),
);

function fifthsOfInterval(interval: string): number {
  const [fifths] = Interval.get(interval).coord ?? [];
  if (fifths === undefined) throw new Error(`not an interval: "${interval}", expected one such as 3m`);
  return fifths;
}

function placesOf(name: ScaleName): readonly number[] {
  const places = FIFTHS.get(name);
  if (places === undefined || places.length === 0) throw new Error(`not a scale: "${name}"`);
  return places;
}

/** The notes of a scale from its tonic upwards: `D dorian` → `['D', 'E', 'F', 'G', 'A', 'B', 'C']`. */
export function scaleNotes(tonic: string, name: ScaleName): string[] {
  const from = fifthsOf(tonic);
  return placesOf(name).map((place) => noteAt(from + place));
}

/** Semitones of its notes above the tonic, rising from 0. */
export function scaleSemitones(name: ScaleName): number[] {
  return placesOf(name).map(pitchClassAt);
}
