import type { ComingBar } from '../stage/place.ts';
import type { ChordSymbol } from '../theory/chord-symbol.ts';
import { degreeFifths } from '../theory/chord-tones.ts';
import { fifthsOf, pitchClassAt } from '../theory/pitch.ts';

/** Where a chord is played. */
export interface ChordPlace {
  readonly coming: ComingBar;
  /** Of its cell in the bar's music. */
  readonly cell: number;
}

/** The MIDI notes with which a chord is comped, rising. */
export type Voicing = (symbol: ChordSymbol, place: ChordPlace) => readonly number[];

const THIRDS = ['3', 'b3', '4', '2', '#4', 'b2'];
const SEVENTHS = ['b7', '7', 'bb7', '6'];
const COLOURS = ['b9', '#9', '#11', 'b13', '13', '9', '11', 'b5', '#5', '5', '1'];

/** Guide tones lie in the octave from E3, the colour above them in the one from C4. */
const GUIDE_LOW = 52;
const COLOUR_LOW = 60;

const inOctaveFrom = (low: number, pitchClass: number): number =>
  low + ((((pitchClass - low) % 12) + 12) % 12);

/**
 * Third, seventh and one colour of the chord around middle C, the root left to the bass. Each voice stays in an octave
 * of its own, so that the hand moves little. Common practice, no source.
 * Example: `G13` → 53 (F), 59 (B), 64 (E).
 */
export const plainVoicing = ({ root, degrees }: ChordSymbol): readonly number[] => {
  const pitchOf = (degree: string, low: number): number =>
    inOctaveFrom(low, pitchClassAt(fifthsOf(root) + degreeFifths(degree)));
  const find = (wanted: readonly string[]): string[] => wanted.filter((degree) => degrees.includes(degree));
  const guides = [...find(THIRDS).slice(0, 1), ...find(SEVENTHS).slice(0, 1)];
  const colours = find(COLOURS).filter((degree) => !guides.includes(degree));
  const [first = '1', ...others] = colours;
  const notes = [
    ...guides.map((degree) => pitchOf(degree, GUIDE_LOW)),
    pitchOf(first, COLOUR_LOW),
    // A triad or a power chord has its root too.
    ...(guides.length < 2 && others.length > 0 ? [pitchOf('1', COLOUR_LOW)] : []),
  ];
  return [...new Set(notes)].sort((a, b) => a - b);
};
