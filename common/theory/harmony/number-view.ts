import type { ChordSymbol } from '../chord-symbol.ts';
import type { Drawn } from '../draw-chord.ts';
import type { Key } from '../key.ts';
import { fifthsOf } from '../pitch.ts';
import { printDegree } from '../plain-signs.ts';

/** A chord in the number system: the degree of its root in the key, and the rest as it is drawn. */
export interface NumberedChord {
  /** `1`, `♭7`: counted from the tonic, against the major scale, also in a minor key. */
  readonly degree: string;
  /** What stands on the baseline after it and what is raised; minor is a dash. */
  readonly drawn: Drawn;
  /** The degree in the bass, counted from the same tonic: the `3` of `1/3`. */
  readonly bass?: string;
}

/**
 * The chord in numbers, for those who think in them: in F, `Gm7` is 2 -7 and `C/E` is 5 over 7.
 * What the chord does is not said: `D7` in C is 2 with a raised 7.
 * Common practice, no source.
 */
export function numberedChord({ root, bass, degrees, drawn }: ChordSymbol, key: Key): NumberedChord {
  const written = placeOf(root, key);
  const place = isDiminished(degrees) ? written : usualPlace(written);
  return {
    degree: degreeAt(place),
    drawn: { base: drawn.base.replace('m', '-'), raised: drawn.raised },
    ...(bass === undefined ? {} : { bass: degreeAt(placeOf(bass, key) + place - written) }),
  };
}

/** In one line of text, raised figures as small figures: `2-⁷`, `5⁷`, `1/3`. */
export function printNumbered({ degree, drawn, bass }: NumberedChord): string {
  const raised = drawn.raised.replace(/\d/g, (figure) => '⁰¹²³⁴⁵⁶⁷⁸⁹'[Number(figure)] ?? figure);
  return degree + drawn.base + raised + (bass === undefined ? '' : `/${bass}`);
}

const MAJOR_SCALE = ['4', '1', '5', '2', '6', '3', '7'] as const;

/** A diminished chord is numbered by where it goes, ♯1 up and ♭2 down, as it is spelled. */
const isDiminished = (degrees: readonly string[]): boolean =>
  degrees.includes('b3') && degrees.includes('b5');

/** On the line of fifths above the tonic. */
const placeOf = (note: string, key: Key): number => fifthsOf(note) - fifthsOf(key.tonic);

/** From ♭5 to ♯4: who thinks in numbers has ♭2 and ♭6, not ♯1 and ♯5, however the chart spells them. */
const usualPlace = (place: number): number =>
  Math.abs(place) <= 6 ? place : place - 12 * Math.round(place / 12);

/** By its spelling: F sharp in C is ♯4, G flat ♭5. */
function degreeAt(fifths: number): string {
  const place = fifths + 1;
  const accidental = Math.floor(place / 7);
  const number = MAJOR_SCALE[place - 7 * accidental] ?? '1';
  const signs = accidental < 0 ? 'b'.repeat(-accidental) : '#'.repeat(accidental);
  return printDegree(signs + number);
}
