import type { Key, Mode } from '../key.ts';
import { type NoteNames, noteName } from '../note-name.ts';
import { pitchClassOf } from '../pitch.ts';
import { SCALE_NAMES, type ScaleName, scaleSemitones } from '../scale.ts';
import { maskOf, turned } from './pitch-set.ts';

/** A scale on the tonic of the key, as a set of pitch classes. */
export interface Source {
  readonly scale: ScaleName;
  readonly tones: number;
}

/** A key, ready to be asked what a chord does in it. */
export interface KeyFrame {
  readonly key: Key;
  /** Pitch class. */
  readonly tonic: number;
  readonly isBlues: boolean;
  /** The home chord has a minor third. */
  readonly isMinor: boolean;
  /** Degrees are named after the natural minor scale: VI, VII; else after the major scale: ♭VI, ♭VII. */
  readonly namesAsMinor: boolean;
  /** The scales that the key is made of, the first above all. */
  readonly home: readonly [Source, ...Source[]];
  /** Scales on the same tonic from which chords are borrowed, the likeliest first. */
  readonly parallel: readonly Source[];
}

const MAJOR_SIDE: readonly ScaleName[] = ['major', 'mixolydian', 'lydian'];
const MINOR_SIDE: readonly ScaleName[] = [
  'natural minor',
  'harmonic minor',
  'melodic minor',
  'dorian',
  'phrygian',
];

const HOME: Readonly<Record<Mode, readonly [ScaleName, ...ScaleName[]]>> = {
  major: ['major'],
  ionian: ['major'],
  blues: ['major'],
  minor: ['natural minor', 'melodic minor', 'harmonic minor'],
  aeolian: ['natural minor', 'melodic minor', 'harmonic minor'],
  'minor blues': ['natural minor', 'melodic minor', 'harmonic minor', 'dorian'],
  dorian: ['dorian', 'melodic minor'],
  phrygian: ['phrygian', 'harmonic minor'],
  lydian: ['lydian'],
  mixolydian: ['mixolydian', 'major'],
  locrian: ['locrian'],
};

const HARMONIC_MAJOR: ScaleName = 'harmonic major';
const MINOR_MODES: readonly Mode[] = ['minor', 'aeolian', 'minor blues', 'dorian', 'phrygian', 'locrian'];

/** There are a few hundred keys, of which a band plays a dozen. */
const frames = new Map<string, KeyFrame>();

/** What there is to know of a key before any chord is asked about; the same object for the same key. */
export function keyFrame(key: Key): KeyFrame {
  const name = `${key.tonic} ${key.mode}`;
  const known = frames.get(name) ?? makeFrame(key);
  frames.set(name, known);
  return known;
}

function makeFrame(key: Key): KeyFrame {
  const tonic = pitchClassOf(key.tonic);
  const source = (scale: ScaleName): Source => ({ scale, tones: scaleTones(scale, tonic) });
  const [first, ...others] = HOME[key.mode];
  const isMinor = MINOR_MODES.includes(key.mode);
  const parallel = isMinor ? [...MINOR_SIDE, ...MAJOR_SIDE] : [...MINOR_SIDE, ...MAJOR_SIDE, HARMONIC_MAJOR];
  return {
    key,
    tonic,
    isBlues: key.mode === 'blues' || key.mode === 'minor blues',
    isMinor,
    namesAsMinor: key.mode === 'minor' || key.mode === 'aeolian' || key.mode === 'minor blues',
    home: [source(first), ...others.map(source)],
    parallel: parallel.filter((scale) => scale !== first && !others.includes(scale)).map(source),
  };
}

const TONES: ReadonlyMap<ScaleName, number> = new Map(
  SCALE_NAMES.map((scale) => [scale, maskOf(scaleSemitones(scale))]),
);

/** The notes of a scale as a set of pitch classes. @param tonic pitch class */
export const scaleTones = (scale: ScaleName, tonic: number): number => turned(TONES.get(scale) ?? 0, tonic);

/** A scale on the tonic in words: `C minor`, `C harmonic minor`. */
export const sourceName = (frame: KeyFrame, scale: ScaleName, names: NoteNames): string =>
  `${noteName(frame.key.tonic, names)} ${scale === 'natural minor' ? 'minor' : scale}`;
