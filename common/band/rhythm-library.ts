import { COMMON_TIME } from '../chart/read-metre.ts';
import { type Rhythm, readRhythm } from './rhythm.ts';

/** A comping rhythm with the name that players give it. */
export interface NamedRhythm {
  readonly name: string;
  /** As the trade writes it, for four beats. */
  readonly text: string;
  /** Chords are short; else each lasts until the next. */
  readonly short?: true;
}

/** By feel, the likeliest first. Common practice, no source. */
export const RHYTHMS = {
  swing: [
    { name: 'Charleston', text: '1 2&' },
    { name: 'four to the bar', text: '1 2 3 4', short: true },
    { name: 'reverse Charleston', text: '1& 3' },
    { name: 'on two and four', text: '2 4', short: true },
    { name: 'two-bar swing', text: '1 2& 4 | 2& 4&' },
    { name: 'off-beats', text: '1& 2& 3& 4&', short: true },
  ],
  shuffle: [
    { name: 'shuffle eighths', text: '1 & 2 & 3 & 4 &', short: true },
    { name: 'on two and four', text: '2 4', short: true },
  ],
  straight: [
    { name: 'straight eighths', text: '1 2 & 3& 4' },
    { name: 'halves', text: '1 3' },
    { name: 'off-beats', text: '1& 2& 3& 4&', short: true },
  ],
  bossa: [
    { name: 'bossa', text: '1 2 3& | 1 2& 4' },
    { name: 'bossa, the other way round', text: '1 2& 4 | 1 2 3&' },
    { name: 'partido alto', text: '1& 2& 4 | 1 2& 3&' },
  ],
  latin: [{ name: 'montuno', text: '1 2& 3& 4& | 1& 2& 3& 4&', short: true }],
  funk: [
    { name: 'funk sixteenths', text: '1 a 2& 3e 4', short: true },
    { name: 'sixteenths on two and four', text: '2 a 4 a', short: true },
    { name: 'on the ands', text: '1& 2& 3& 4&', short: true },
  ],
  ballad: [
    { name: 'halves', text: '1 3' },
    { name: 'whole notes', text: '1' },
  ],
  waltz: [
    { name: 'on two and three', text: '2 3', short: true },
    { name: 'one and the and of two', text: '1 2&' },
  ],
} as const satisfies Record<string, readonly NamedRhythm[]>;

export type RhythmFeel = keyof typeof RHYTHMS;
export const RHYTHM_FEELS = Object.keys(RHYTHMS) as readonly RhythmFeel[];

/** The rhythm of a library entry, for bars of four beats. */
export const rhythmOf = ({ text }: NamedRhythm): Rhythm => {
  const { rhythm, problems } = readRhythm(text, COMMON_TIME);
  if (problems.length > 0) throw new Error(`a rhythm of the library: ${text}: ${problems[0]?.words}`);
  return rhythm;
};
