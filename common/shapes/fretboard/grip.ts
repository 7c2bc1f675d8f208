import { SEMITONE_COST } from '../path-cost.ts';
import { ease, isStrummed } from './ease.ts';
import type { FretInstrument } from './fret-instrument.ts';
import type { FretShape } from './fret-shape.ts';
import { fretMm } from './hand.ts';

/** Stands for a voice that a shape does not have. */
export const NO_VOICE = 0;
export const VOICE_BITS = 7;
export const FRET_BITS = 5;
/** So many voices, and so many strings, go into one number of 32 bits. */
export const VOICES_A_NUMBER = 4;
const STRINGS_A_NUMBER = 6;
export const UPPER_VOICES = 3;

const MM_A_SEMITONE = 20;
/** Of all strings strummed at once the ear follows the upper ones. */
const STRUMMED_VOICES = 3;

/** A shape as a path weighs it, in a few numbers, since a path weighs hundreds of thousands of moves. */
export interface Grip {
  readonly shape: FretShape;
  /** Its `ease` in the units of a path. */
  readonly own: number;
  /** How many voices the ear follows: all, of a strummed shape the upper three. */
  readonly voices: number;
  /** The upper three voices in MIDI, `NO_VOICE` where there are fewer. */
  readonly top: number;
  readonly second: number;
  readonly third: number;
  /** The next four voices, and those below, the highest in the lowest bits. */
  readonly lower: number;
  readonly lowest: number;
  /** How far up the neck the hand is, in what it costs to go there; 0 where no finger presses. */
  readonly hand: number;
  /** At which fret each of the first six strings is pressed, 0 where it is not, the first in the lowest bits; and the others. */
  readonly pressed: number;
  readonly pressedBeyond: number;
}

/** The grip of a shape of at most ten strings. */
export function gripOf(shape: FretShape, instrument: FretInstrument): Grip {
  const heard = shape.midi.toReversed().slice(0, isStrummed(shape, instrument) ? STRUMMED_VOICES : undefined);
  const [top = NO_VOICE, second = NO_VOICE, third = NO_VOICE, ...below] = heard;
  const frets = shape.frets.map((fret) => fret ?? 0);
  const handMm = fretMm(shape.handFret, instrument.scaleLengthMm);
  return {
    shape,
    own: Math.round(ease(shape, instrument) * SEMITONE_COST),
    voices: heard.length,
    top,
    second,
    third,
    lower: packed(below.slice(0, VOICES_A_NUMBER), VOICE_BITS),
    lowest: packed(below.slice(VOICES_A_NUMBER), VOICE_BITS),
    hand: Math.round((handMm / MM_A_SEMITONE) * SEMITONE_COST),
    pressed: packed(frets.slice(0, STRINGS_A_NUMBER), FRET_BITS),
    pressedBeyond: packed(frets.slice(STRINGS_A_NUMBER), FRET_BITS),
  };
}

const packed = (numbers: readonly number[], bits: number): number =>
  numbers.reduce((sum, number, place) => sum | (number << (place * bits)), 0);
