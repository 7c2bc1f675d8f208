import type { ChordNeeds } from './chord-needs.ts';
import type { Frets } from './fingering.ts';
import type { ShapeKind } from './fret-shape.ts';

/** What a shape sounds, before it has a name. */
export interface Sounding {
  readonly frets: Frets;
  /** Sounding pitches, rising. */
  readonly midi: readonly number[];
  /** Their pitch classes as a set. */
  readonly tones: number;
}

const OCTAVE = 12;
/** The highest fret of an open chord: it lies in the first position. */
const FIRST_POSITION = 4;
/** Fewer voices than these, on an instrument that has the strings, are a part of the chord. */
const FULL_VOICES = 4;

const has = (tones: number, pitchClass: number): boolean => (tones & (1 << pitchClass)) !== 0;

/** How many pitch classes are in a set. */
export function countOf(tones: number): number {
  let count = 0;
  for (let left = tones; left !== 0; left &= left - 1) count++;
  return count;
}

/**
 * The kinds of which a shape of a chord is (SHAPE-10 to SHAPE-13), empty where it is none of them.
 * @param bassPlays somebody else plays the root, or the bass after the slash
 */
export function shapeKinds(
  { frets, midi, tones }: Sounding,
  needs: ChordNeeds,
  bassPlays: boolean,
): readonly ShapeKind[] {
  const lowest = (midi[0] as number) % OCTAVE;
  const isOverItsBass = lowest === (needs.bass ?? needs.root);
  if (!bassPlays && !isOverItsBass) return [];
  if (needs.bass !== null && has(tones & ~needs.chord, needs.bass) && !isOverItsBass) return [];
  const hasRoot = has(tones, needs.root);
  const kinds: ShapeKind[] = [];
  if (isShell(frets, midi, tones, needs)) kinds.push('shell');
  if (!isComplete(tones, needs)) return kinds;
  if (midi.length === 3 && hasRoot && tones !== needs.triad) kinds.push('three-note');
  if (midi.length === 3 && tones === needs.triad) kinds.push(isTriad(frets, midi) ? 'triad' : 'spread triad');
  if (!hasRoot && countOf(tones) === midi.length) kinds.push('rootless');
  if (midi.length === 4 && countOf(tones) === 4) kinds.push(...dropsOf(midi));
  const isFull = hasRoot && (needs.bass === null || isOverItsBass) && midi.length >= fullVoices(frets, needs);
  if (isFull) kinds.push('full');
  if (isFull && isOpen(frets)) kinds.push('open chord');
  return kinds;
}

/** Third, seventh and colour are there, and enough of the chord's tones to be heard as it. */
export const isComplete = (tones: number, needs: ChordNeeds): boolean =>
  needs.core.every((set) => (tones & set) !== 0) &&
  needs.colour.every((set) => (tones & set) !== 0) &&
  countOf(tones & needs.chord) >= needs.fewestTones;

/** Root, third and seventh, each once; the root lowest, on one of the two lowest strings or below the upper four. */
function isShell(frets: Frets, midi: readonly number[], tones: number, needs: ChordNeeds): boolean {
  if (midi.length !== 3 || tones !== needs.shell || needs.shell === 0) return false;
  const string = frets.findIndex((fret) => fret >= 0);
  return (midi[0] as number) % OCTAVE === needs.root && string < Math.max(2, frets.length - 4);
}

/** Close, within an octave, on neighbouring strings. */
function isTriad(frets: Frets, midi: readonly number[]): boolean {
  const played = frets.map((fret) => fret >= 0);
  const areNeighbours = played.lastIndexOf(true) - played.indexOf(true) === 2;
  return areNeighbours && (midi[2] as number) - (midi[0] as number) < OCTAVE;
}

/**
 * Which voices of a close chord, counted from the top, were put an octave down to make these four: putting the
 * lowest up again (for drop 2 and 4 the lowest two) must give four voices within an octave, and the moved ones must
 * land in their place.
 */
function dropsOf(midi: readonly number[]): readonly ShapeKind[] {
  const [a, b, c, d] = midi as readonly [number, number, number, number];
  const raised = a + OCTAVE;
  if (d - b < OCTAVE && c < raised && raised < d) return ['drop 2'];
  if (d - b < OCTAVE && b < raised && raised < c) return ['drop 3'];
  const both = b + OCTAVE;
  return c < raised && raised < d && d < both && both < c + OCTAVE ? ['drop 2 and 4'] : [];
}

const fullVoices = (frets: Frets, needs: ChordNeeds): number =>
  countOf(needs.chord) <= 2 ? 2 : Math.min(FULL_VOICES, frets.length);

const isOpen = (frets: Frets): boolean => frets.includes(0) && frets.every((fret) => fret <= FIRST_POSITION);
