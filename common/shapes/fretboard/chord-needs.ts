import { alterationOf, numberOf } from '../../theory/chord-degrees.ts';
import type { ChordSymbol } from '../../theory/chord-symbol.ts';
import { degreeFifths } from '../../theory/chord-tones.ts';
import { fifthsOf, pitchClassAt, pitchClassOf } from '../../theory/pitch.ts';

/** What a shape of a chord has to sound; sets of pitch classes are twelve bits, C the lowest. */
export interface ChordNeeds {
  readonly root: number;
  /** The pitch class after the slash; null where the root is the bass. */
  readonly bass: number | null;
  /** All that the symbol names, without the bass. */
  readonly chord: number;
  /** By pitch class, its degree in the chord; a foreign bass has the degree it makes with the root. */
  readonly degrees: readonly (string | undefined)[];
  /** Third and seventh, or what stands for them: of each set one must sound, in every kind of shape. */
  readonly core: readonly number[];
  /** What the symbol names beyond that: of each set one must sound, except in a shell. */
  readonly colour: readonly number[];
  /** Root, third and seventh; 0 for a chord without a seventh or sixth. */
  readonly shell: number;
  /** How many different tones make it the chord: three, or all of a chord that has fewer. */
  readonly fewestTones: number;
  /** What its triad sounds: 1 3 5, of a seventh chord 3 5 7, of a sixth chord 1 3 6; 0 where it has none. */
  readonly triad: number;
}

/**
 * What must sound and what may, by the degrees of the symbol (SHAPE-2): third and seventh are never left out, nor
 * the highest figure, nor anything altered, added or suspended; the fifth may be where it is perfect, and the
 * figures below the highest. Of a degree altered both ways (♭9 ♯9) one is enough. Common practice, no source.
 */
export function chordNeeds(symbol: ChordSymbol): ChordNeeds {
  const rootPlace = fifthsOf(symbol.root);
  const pitchClass = (degree: string): number => pitchClassAt(rootPlace + degreeFifths(degree));
  const bit = (degree: string): number => 1 << pitchClass(degree);
  const root = pitchClassOf(symbol.root);
  const bass = symbol.bass === undefined ? null : pitchClassOf(symbol.bass);
  const degrees: (string | undefined)[] = Array.from({ length: 12 });
  if (symbol.bass !== undefined) degrees[bass ?? 0] = degreeOf(fifthsOf(symbol.bass) - rootPlace);
  for (const degree of symbol.degrees.toReversed()) degrees[pitchClass(degree)] = degree;

  const thirds = thirdsOf(symbol.degrees);
  const sevenths = seventhsOf(symbol.degrees);
  const core = [...thirds, ...sevenths].map(bit);
  const colours = symbol.degrees.filter((degree) => ![...thirds, ...sevenths, '1', '5'].includes(degree));
  const highest = Math.max(...symbol.degrees.map(numberOf));
  const needed = colours.filter(
    (degree) => alterationOf(degree) !== 0 || numberOf(degree) === highest || numberOf(degree) < 8,
  );
  const sets = new Map<number, number>();
  for (const degree of needed) sets.set(numberOf(degree), (sets.get(numberOf(degree)) ?? 0) | bit(degree));
  const [third] = thirds;
  const [seventh] = sevenths;
  return {
    root,
    bass,
    chord: symbol.degrees.reduce((mask, degree) => mask | bit(degree), 0),
    degrees,
    core,
    colour: [...sets.values()],
    shell: third === undefined || seventh === undefined ? 0 : (1 << root) | bit(third) | bit(seventh),
    fewestTones: Math.min(3, new Set(symbol.degrees.map(pitchClass)).size),
    triad: triadOf(symbol.degrees, third, seventh).reduce((mask, degree) => mask | bit(degree), 0),
  };
}

const triadOf = (
  degrees: readonly string[],
  third: string | undefined,
  seventh: string | undefined,
): readonly string[] => {
  const fifth = degrees.find((degree) => numberOf(degree) === 5);
  if (third === undefined) return [];
  if (seventh === '6') return ['1', third, seventh];
  if (fifth === undefined) return [];
  return seventh === undefined ? ['1', third, fifth] : [third, fifth, seventh];
};

/** The third, else what stands for it. */
const thirdsOf = (degrees: readonly string[]): readonly string[] => {
  const thirds = degrees.filter((degree) => numberOf(degree) === 3);
  return thirds.length > 0 ? thirds : degrees.filter((degree) => degree === '4' || degree === '2');
};

/** The seventh, else the sixth; a diminished chord with both sevenths has both. */
const seventhsOf = (degrees: readonly string[]): readonly string[] => {
  const sevenths = degrees.filter((degree) => numberOf(degree) === 7);
  return sevenths.length > 0 ? sevenths : degrees.filter((degree) => degree === '6');
};

/** The degree that lies so many fifths above the root, the plainest of its names: 3 → `6`, −1 → `4`. */
const degreeOf = (fifths: number): string => {
  const number = ((((fifths * 4) % 7) + 7) % 7) + 1;
  const alteration = (fifths - degreeFifths(String(number))) / 7;
  return (alteration < 0 ? 'b'.repeat(-alteration) : '#'.repeat(alteration)) + number;
};
