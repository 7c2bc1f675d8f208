import type { ChordSymbol } from '../chord-symbol.ts';
import { degreeFifths } from '../chord-tones.ts';
import { pitchClassAt, pitchClassOf } from '../pitch.ts';
import type { Numeral } from './numeral.ts';
import { maskOf, semitonesUp } from './pitch-set.ts';

/**
 * What kind of chord it is, as far as its work in a progression goes. A dominant has a flat seventh over a major
 * third, or over a fourth in its place.
 */
export type Family =
  | 'major'
  | 'minor'
  | 'dominant'
  | 'half-diminished'
  | 'diminished'
  | 'augmented'
  | 'power';

/** A chord without its colours: extensions and altered tensions don't change what it does. */
export interface ChordCore {
  /** Pitch class of the root on which it works, C = 0 … B = 11. */
  readonly root: number;
  /** What stands over the bass where that is the root: the Fm7 of `Fm7/Bb`, which works on B flat. */
  readonly above?: ChordCore;
  /** Pitch class of the lowest note. */
  readonly bass: number;
  readonly family: Family;
  /** What is written after its numeral: '', '7', '△7', '6', 'ø7', '°7', '+', '7sus'. */
  readonly figure: string;
  /** Root, third, fifth, and sixth or seventh, as a set of pitch classes; an altered fifth of a dominant is left out. */
  readonly tones: number;
}

const cores = new WeakMap<ChordSymbol, ChordCore>();

/** The core of a chord: `G13b9` and `G7` have the same. Computed once for a symbol. */
export function coreOf(symbol: ChordSymbol): ChordCore {
  const known = cores.get(symbol);
  if (known) return known;
  const core = readCore(symbol);
  cores.set(symbol, core);
  return core;
}

/** The chord as its numeral names it: what stands over the bass, where the numeral is not that of a suspended dominant. */
export const namedCore = (core: ChordCore, { figure }: Numeral): ChordCore =>
  core.above === undefined || figure.includes('sus') ? core : core.above;

/** Same root and same family: one chord for the ear, whatever its colours and its bass. */
export const isSameChord = (one: ChordCore, other: ChordCore): boolean =>
  one.root === other.root && one.family === other.family;

function readCore(symbol: ChordSymbol): ChordCore {
  const root = pitchClassOf(symbol.root);
  const bass = symbol.bass === undefined ? root : pitchClassOf(symbol.bass);
  const degrees = new Set(symbol.degrees);
  addSeventhInBass(degrees, semitonesUp(root, bass));
  const family = familyOf(degrees);
  const tones = maskOf(pitchClasses(root, coreDegrees(degrees, family)));
  const core: ChordCore = { root, bass, family, figure: figureOf(degrees, family), tones };
  if (!isSuspendedOver(family, semitonesUp(root, bass))) return core;
  return { root: bass, above: core, bass, family: 'dominant', figure: '7sus', tones: tones | maskOf([bass]) };
}

/** A triad over its own seventh is the seventh chord: `C/Bb` is C7 with the seventh in the bass. */
function addSeventhInBass(degrees: Set<string>, bass: number): void {
  if (['b7', '7', 'bb7', '6'].some((degree) => degrees.has(degree))) return;
  if (bass === 10) degrees.add('b7');
  if (bass === 11) degrees.add('7');
}

/** `F/G`, `Fmaj7/G` and `Dm7/G` are ways to write G7sus, `Fm/G` G7sus♭9 (common practice, no source). */
const isSuspendedOver = (family: Family, bass: number): boolean =>
  (bass === 2 && (family === 'major' || family === 'minor')) || (bass === 5 && family === 'minor');

function familyOf(degrees: ReadonlySet<string>): Family {
  const has = (degree: string): boolean => degrees.has(degree);
  if (has('3')) {
    if (has('b7')) return 'dominant';
    return has('#5') && !has('5') ? 'augmented' : 'major';
  }
  if (has('b3')) {
    if (!has('b5') || has('5') || has('#5')) return 'minor';
    return has('b7') ? 'half-diminished' : 'diminished';
  }
  if (has('b7')) return 'dominant';
  return has('4') || has('2') || has('7') || has('6') ? 'major' : 'power';
}

const FIFTHS: Readonly<Record<Family, readonly string[]>> = {
  major: ['5'],
  minor: ['5'],
  dominant: ['5'],
  'half-diminished': ['b5'],
  diminished: ['b5'],
  augmented: ['#5'],
  power: ['5'],
};

function coreDegrees(degrees: ReadonlySet<string>, family: Family): string[] {
  const third = ['3', 'b3'].filter((degree) => degrees.has(degree));
  const instead = third.length > 0 ? [] : ['4', '2'].filter((degree) => degrees.has(degree));
  const fifth = FIFTHS[family].filter((degree) => degrees.has(degree));
  return ['1', ...third, ...instead, ...fifth, ...seventhOf(degrees)];
}

/** The seventh, else the sixth; nothing for a triad. */
const seventhOf = (degrees: ReadonlySet<string>): string[] => {
  const found = ['b7', 'bb7', '7', '6'].find((degree) => degrees.has(degree));
  return found === undefined ? [] : [found];
};

const pitchClasses = (root: number, degrees: readonly string[]): number[] =>
  degrees.map((degree) => (root + pitchClassAt(degreeFifths(degree))) % 12);

const SEVENTHS: Readonly<Record<string, string>> = { b7: '7', '7': '△7', '6': '6', bb7: '7' };

function figureOf(degrees: ReadonlySet<string>, family: Family): string {
  const [seventh] = seventhOf(degrees);
  const figure = seventh === undefined ? '' : (SEVENTHS[seventh] ?? '');
  if (family === 'half-diminished') return 'ø7';
  // A sixth above a diminished triad is the diminished seventh spelled otherwise.
  if (family === 'diminished') return `°${seventh === '6' ? '7' : figure}`;
  if (family === 'augmented') return `+${figure}`;
  if (family === 'power') return '5';
  const isSuspended = !degrees.has('3') && !degrees.has('b3') && (degrees.has('4') || degrees.has('2'));
  return isSuspended ? `${figure}sus${degrees.has('4') ? '' : '2'}` : figure;
}
