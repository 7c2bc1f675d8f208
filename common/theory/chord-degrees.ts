import type { ChordParts } from './chord-parts.ts';

const TRIADS: Readonly<Record<Exclude<ChordParts['quality'], 'altered'>, readonly string[]>> = {
  major: ['3', '5'],
  minor: ['b3', '5'],
  diminished: ['b3', 'b5'],
  'half-diminished': ['b3', 'b5'],
  augmented: ['3', '#5'],
  power: ['5'],
};

/** Any of these may be played; the natural fifth, ninth and thirteenth may not. */
const ALTERED_DOMINANT: readonly string[] = ['1', '3', 'b5', '#5', 'b7', 'b9', '#9'];

/** The degrees that each figure stacks on a seventh (MusicXML 4.0, kind-value: an 11th contains the ninth, …). */
const STACKS: Readonly<Record<ChordParts['figure'], readonly string[]>> = {
  0: [],
  2: ['2'],
  6: ['6'],
  69: ['6', '9'],
  7: [],
  9: ['9'],
  11: ['9', '11'],
  13: ['9', '11', '13'],
};

/** Natural degrees that give way to their own alteration; a fourth or sixth stays beside ♯4 or ♭6. */
const GIVES_WAY = new Set(['5', '9', '11', '13']);

/**
 * The degrees above the root that the parts name, in order (`['1', 'b3', 'b5', 'b7']`), in the sense of MusicXML:
 * `7` is the major seventh. `null` where the parts contradict each other (`7` with `(maj7)`,
 * a degree added twice, one left out that is not there).
 */
export function chordDegrees(parts: ChordParts): readonly string[] | null {
  if (parts.quality === 'altered') return ALTERED_DOMINANT;
  const degrees = new Set(['1', ...TRIADS[parts.quality], ...STACKS[parts.figure]]);
  if (isSeventh(parts)) degrees.add(seventhOf(parts));
  const good =
    suspend(degrees, parts) &&
    alter(degrees, parts) &&
    addTo(degrees, parts) &&
    omit(degrees, parts) &&
    degrees.size > 1;
  return good ? [...degrees].sort(byDegree) : null;
}

const isSeventh = ({ figure }: ChordParts): boolean => figure >= 7 && figure <= 13;

function seventhOf({ quality, majorSeventh }: ChordParts): string {
  if (majorSeventh) return '7';
  return quality === 'diminished' ? 'bb7' : 'b7';
}

/** The suspended degree stands for the third, and for the same note an octave up. */
function suspend(degrees: Set<string>, { sus, quality }: ChordParts): boolean {
  if (sus.length === 0) return true;
  if (quality === 'power' || quality === 'diminished' || quality === 'half-diminished') return false;
  degrees.delete('3');
  degrees.delete('b3');
  for (const each of sus) {
    degrees.add(each);
    if (each === '4') degrees.delete('11');
    if (each === '2') degrees.delete('9');
  }
  return true;
}

function alter(degrees: Set<string>, parts: ChordParts): boolean {
  const triad = parts.quality === 'altered' ? [] : TRIADS[parts.quality];
  if (parts.quality === 'power' && parts.altered.length > 0) return false;
  if (parts.altered.includes('b7') && parts.altered.includes('#7')) return false;
  for (const degree of parts.altered) {
    if (degree === 'b7' || degree === '#7') {
      if (!alterSeventh(degrees, degree, parts)) return false;
      continue;
    }
    if (degree === '#5' && triad.includes('b5')) return false;
    if (degrees.has(degree) && !triad.includes(degree)) return false;
    const natural = degree.slice(1);
    if (GIVES_WAY.has(natural)) degrees.delete(natural);
    degrees.add(degree);
  }
  return true;
}

/** `♯7` is the raised seventh of a minor chord, `♭7` the minor seventh of a chord that has none. */
function alterSeventh(
  degrees: Set<string>,
  degree: string,
  { quality, majorSeventh, figure }: ChordParts,
): boolean {
  if (degree === 'b7') {
    if (degrees.has('b7') || degrees.has('7') || degrees.has('bb7')) return false;
    degrees.add('b7');
    return true;
  }
  if (quality !== 'minor' || majorSeventh || figure !== 0) return false;
  degrees.add('7');
  return true;
}

function addTo(degrees: Set<string>, { added }: ChordParts): boolean {
  for (const degree of added) {
    if (degrees.has(degree)) return false;
    if (degree === '3' && degrees.has('b3')) return false;
    if (degree === '7' && degrees.has('b7')) return false;
    if (degree === 'b7' && (degrees.has('7') || degrees.has('bb7'))) return false;
    degrees.add(degree);
  }
  return true;
}

function omit(degrees: Set<string>, { omitted, sus }: ChordParts): boolean {
  for (const number of omitted) {
    const gone = [...degrees].filter((degree) => numberOf(degree) === Number(number));
    if (gone.length === 0 && !(number === '3' && sus.length > 0)) return false;
    for (const degree of gone) degrees.delete(degree);
  }
  return true;
}

/** The number of a degree without its accidental: `bb7` → 7. */
export const numberOf = (degree: string): number => Number(degree.replace(/^[b#]+/, ''));

/** How far a degree is raised: `bb7` → −2, `#11` → 1. */
export function alterationOf(degree: string): number {
  const flats = /^b*/.exec(degree)?.[0].length ?? 0;
  const sharps = /^#*/.exec(degree)?.[0].length ?? 0;
  return sharps - flats;
}

const byDegree = (one: string, other: string): number =>
  numberOf(one) - numberOf(other) || alterationOf(one) - alterationOf(other);
