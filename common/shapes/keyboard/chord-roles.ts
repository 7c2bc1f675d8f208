import type { ChordSymbol } from '../../theory/chord-symbol.ts';
import { type Tone, toneOfBass, toneOfDegree } from './tone.ts';

/** What each note of a chord is to a player of keys. Where the chord has no such note the role is `null` or empty. */
export interface ChordRoles {
  /** The lowest note where the hands play it: the bass after the slash, else the root. */
  readonly bass: Tone | null;
  readonly third: Tone | null;
  /** The seventh, or the sixth in its place; `null` for a triad. */
  readonly seventh: Tone | null;
  /** What may be played beside third and seventh: the fifth, or the colour that takes its finger. */
  readonly fifths: readonly Tone[];
  /** What may be played in place of the root. */
  readonly ninths: readonly Tone[];
  /** All that the symbol names, as low as it can be named: for chords that are played whole. */
  readonly named: readonly Tone[];
}

const THIRDS = ['3', 'b3', '4', '#4', '2', 'b2'];
const SEVENTHS = ['b7', '7', 'bb7', '6'];
const NINTHS = ['b9', '9', '#9', '2', 'b2'];
const ALTERED_FIFTHS = ['b5', '#5', 'b13', 'b6'];
const OVER_FIFTHS = ['13', '#11', '11', '#4', '4'];

/**
 * The roles of a chord's notes by its degrees alone, and, for the colours that its symbol leaves open, by `colours`.
 * @param colours degrees that the chord's scale adds (`['b9', 'b13']`); left out: those that suit its kind anywhere
 * @example chordRoles(C7).fifths // 13, which takes the fifth's finger in a plain dominant
 */
export function chordRoles(symbol: ChordSymbol, colours?: readonly string[]): ChordRoles {
  const { degrees } = symbol;
  const tone = (degree: string): Tone => toneOfDegree(symbol.root, degree);
  const find = (wanted: readonly string[]): string | undefined =>
    wanted.find((degree) => degrees.includes(degree));
  const seventh = find(SEVENTHS);
  const third = isEleventh(degrees) ? '11' : find(THIRDS);
  const taken = [third, seventh];
  const free = (degree: string): boolean => !taken.includes(degree) && degrees.includes(degree);
  const root = degrees.includes('1') ? tone('1') : null;
  return {
    bass: symbol.bass === undefined ? root : toneOfBass(symbol.root, symbol.bass),
    third: third === undefined ? null : tone(third),
    seventh: seventh === undefined ? null : tone(seventh),
    fifths: fifthsOf(degrees, free, colours).map(tone),
    ninths: (seventh === undefined ? NINTHS.filter(free) : ninthsOf(degrees, free, colours)).map(tone),
    named: degrees.map(tone),
  };
}

/** Under a plain eleventh chord nobody plays the third: the eleventh stands for it, as in a `sus`. */
const isEleventh = (degrees: readonly string[]): boolean =>
  degrees.includes('11') && degrees.includes('3') && degrees.includes('b7') && !degrees.includes('13');

const isHalfDiminished = (degrees: readonly string[]): boolean =>
  degrees.includes('b3') &&
  degrees.includes('b5') &&
  degrees.includes('b7') &&
  !degrees.includes('5') &&
  !degrees.includes('#5');

/** A dominant whose symbol says nothing of fifth and ninth, or only that they are natural: with ♭9 a 13 would be news. */
const isPlainDominant = (degrees: readonly string[]): boolean =>
  degrees.includes('b7') &&
  degrees.includes('3') &&
  !isEleventh(degrees) &&
  !degrees.includes('b9') &&
  !degrees.includes('#9');

function fifthsOf(
  degrees: readonly string[],
  free: (degree: string) => boolean,
  colours: readonly string[] | undefined,
): string[] {
  if (isHalfDiminished(degrees)) return ['b5'];
  const altered = ALTERED_FIFTHS.filter(free);
  // A natural eleventh rubs against a major third: a thirteenth chord leaves it out.
  const over = OVER_FIFTHS.filter((degree) => free(degree) && !(degree === '11' && degrees.includes('3')));
  const colour = [...altered, ...over];
  if (colour.length > 0) return colour;
  const offered = isPlainDominant(degrees)
    ? (colours ?? ['13']).filter((degree) => /^b?13$/.test(degree))
    : [];
  return offered.length > 0 ? offered : ['5'].filter(free);
}

function ninthsOf(
  degrees: readonly string[],
  free: (degree: string) => boolean,
  colours: readonly string[] | undefined,
): string[] {
  const named = NINTHS.filter(free);
  if (named.length > 0 || degrees.includes('bb7')) return named;
  if (isHalfDiminished(degrees)) {
    const colour = ['11', 'b13'].filter(free);
    return colour.length > 0 ? colour : (colours ?? ['11']).filter((degree) => /^(9|11)$/.test(degree));
  }
  if (degrees.includes('2') || degrees.includes('b2')) return [];
  const offered = (colours ?? ['9']).filter((degree) => NINTHS.includes(degree));
  if (offered.length > 0 || !degrees.includes('b3')) return offered;
  // Over a scale with a ♭9, which nobody holds, a minor chord has its eleventh there.
  return (colours ?? []).filter((degree) => degree === '11' && !degrees.includes(degree));
}
