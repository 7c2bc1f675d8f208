import type { FretInstrument } from './fret-instrument.ts';
import type { FretShape } from './fret-shape.ts';
import { fretMm } from './hand.ts';

/** A shape as the hand and the ear meet it on the way from one to the next. */
export interface Grip {
  readonly shape: FretShape;
  /** Where the hand stands along the neck, in units of a shift that costs 1; −1 where no finger presses. */
  readonly hand: number;
  /** Sounding pitches from the top voice down. */
  readonly voices: readonly number[];
  /** By string, the fret that is pressed; 0 where none is. */
  readonly pressed: readonly number[];
  /** What it costs by itself, see `ease`. */
  readonly own: number;
}

const MM_A_UNIT = 20;
/** A voice that ends or begins. */
const ENDS = 3;
const TOP = 0.5;
const PLACED = 0.25;

const EASY_STRETCH_MM = 60;
const LOW_MIDI = 48;
const FIFTH = 7;
const FIRST_POSITION = 4;
const EASY_FRET = 10;

/** The shape with what the costs need of it. */
export const gripOf = (shape: FretShape, { scaleLengthMm }: FretInstrument): Grip => ({
  shape,
  hand: shape.handFret === 0 ? -1 : fretMm(shape.handFret, scaleLengthMm) / MM_A_UNIT,
  voices: shape.midi.toReversed(),
  pressed: shape.frets.map((fret) => fret ?? 0),
  own: ease(shape),
});

/**
 * What it costs to go from one grip to the next, in units of one voice moving by a semitone (SHAPE-15):
 * `shift + voices + top + placed`, where
 *
 * - `shift` is how far the hand moves along the neck, 1 for each 20 mm, none from or to open strings alone;
 * - `voices` are the semitones between voices that answer each other, counted from the top as the ear follows it, at
 *   most 6 for each: a voice that leaps farther ends and another begins; and 3 for each voice that one grip has more;
 * - `top` is half a unit more for each semitone of the top voice;
 * - `placed` is a quarter for each string that is pressed anew: of common tones, those are worth most that a
 *   finger holds.
 *
 * The weights are our own.
 */
export function movement(from: Grip, to: Grip): number {
  const one = from.voices;
  const other = to.voices;
  const common = Math.min(one.length, other.length);
  let cost = atLeast(from, to);
  for (let i = 1; i < common; i++) {
    const semitones = Math.abs((one[i] as number) - (other[i] as number));
    cost += semitones < 2 * ENDS ? semitones : 2 * ENDS;
  }
  const before = from.pressed;
  const after = to.pressed;
  for (let string = 0; string < after.length; string++) {
    const fret = after[string] as number;
    if (fret !== 0 && fret !== before[string]) cost += PLACED;
  }
  return cost;
}

/** What hand, top voice and number of voices alone cost: never more than `movement`. */
export function atLeast(from: Grip, to: Grip): number {
  const shift = from.hand < 0 || to.hand < 0 ? 0 : Math.abs(from.hand - to.hand);
  const top = Math.abs((from.voices[0] as number) - (to.voices[0] as number));
  const more = Math.abs(from.voices.length - to.voices.length);
  return shift + (top < 2 * ENDS ? top : 2 * ENDS) + TOP * top + ENDS * more;
}

/**
 * What a shape costs by itself, in the same units (SHAPE-16): 1 for each 20 mm of stretch beyond 60; a quarter for each
 * finger; 1 for a barre of the index finger and 1.5 for another; 1 for each silent string inside; 1.5 for each open
 * string under a hand above the first position; half for each fret above the tenth; half where neither the root
 * nor the bass after the slash is lowest; 1 for each interval below a fifth under C3, which sounds muddy.
 */
function ease(shape: FretShape): number {
  const { frets, barres, stretchMm, handFret, midi } = shape;
  const fingers = new Set(shape.fingers.filter((finger) => finger !== null)).size;
  const played = frets.map((fret) => fret !== null);
  const inside = played
    .slice(played.indexOf(true), played.lastIndexOf(true))
    .filter((sounds) => !sounds).length;
  const open = handFret > FIRST_POSITION ? frets.filter((fret) => fret === 0).length : 0;
  const muddy = midi.filter((low, i) => low < LOW_MIDI && (midi[i + 1] ?? low + FIFTH) - low < FIFTH).length;
  return (
    Math.max(0, stretchMm - EASY_STRETCH_MM) / MM_A_UNIT +
    fingers / 4 +
    barres.reduce((sum, { finger }) => sum + (finger === 1 ? 1 : 1.5), 0) +
    inside +
    1.5 * open +
    Math.max(0, handFret - EASY_FRET) / 2 +
    (shape.isInverted ? 0.5 : 0) +
    muddy
  );
}
