import { alterationOf, numberOf } from './chord-degrees.ts';
import type { ChordSymbol } from './chord-symbol.ts';
import { fifthsOf, noteAt, pitchClassAt } from './pitch.ts';

/** The degrees of the major scale on the line of fifths: the second lies two fifths above the root, … */
const MAJOR_SCALE_FIFTHS = [0, 2, 4, -1, 1, 3, 5] as const;

/** One accidental is seven places on the line of fifths. */
const FIFTHS_AN_ACCIDENTAL = 7;

/** How many fifths a degree lies above the root: `5` 1, `b7` −2, `#11` 6. */
export function degreeFifths(degree: string): number {
  const fifths = MAJOR_SCALE_FIFTHS[(numberOf(degree) - 1) % 7];
  if (fifths === undefined) throw new Error(`not a degree: "${degree}", expected a form such as b7 or #11`);
  return fifths + FIFTHS_AN_ACCIDENTAL * alterationOf(degree);
}

const places = (symbol: Pick<ChordSymbol, 'root' | 'degrees'>): number[] => {
  const root = fifthsOf(symbol.root);
  return symbol.degrees.map((degree) => root + degreeFifths(degree));
};

/**
 * The notes of the chord from its root upwards, spelled by their degrees, without the bass after a slash:
 * `Bb7` → `['Bb', 'D', 'F', 'Ab']`, `Co7` → `['C', 'Eb', 'Gb', 'Bbb']`.
 */
export function chordTones(symbol: Pick<ChordSymbol, 'root' | 'degrees'>): string[] {
  return places(symbol).map(noteAt);
}

/** The pitch classes of `chordTones` in the same order, C = 0 … B = 11. */
export function chordPitchClasses(symbol: Pick<ChordSymbol, 'root' | 'degrees'>): number[] {
  return places(symbol).map(pitchClassAt);
}
