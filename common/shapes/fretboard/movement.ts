import type { PathCost } from '../path-cost.ts';
import { ease } from './ease.ts';
import type { FretInstrument } from './fret-instrument.ts';
import type { FretShape } from './fret-shape.ts';
import { fretMm } from './hand.ts';

const MM_A_UNIT = 20;
/** A voice that ends or begins; one that leaps farther than twice this does both. */
const ENDS = 3;
const TOP = 0.5;
const PLACED = 0.25;
/** Room for the strings of an instrument, and for its voices. */
const ROW = 10;
const MOST_FRETS = 32;

/**
 * What paths through these shapes cost; a shape is named by its place in the list. In units of one voice moving by a
 * semitone, a move costs `shift + voices + top + placed` (SHAPE-15), where
 *
 * - `shift` is how far the hand moves along the neck, 1 for each 20 mm, none from or to open strings alone;
 * - `voices` are the semitones between voices that answer each other, counted from the top as the ear follows it, at
 *   most 6 for each: a voice that leaps farther ends and another begins; and 3 for each voice that one shape has more;
 * - `top` is half a unit more for each semitone of the top voice;
 * - `placed` is a quarter for each string that is pressed anew: of common tones, those are worth most that a finger holds.
 *
 * A shape by itself costs its `ease`. The weights are our own. All lies in flat arrays, since a path over a form
 * weighs millions of moves.
 */
export function movement(shapes: readonly FretShape[], { scaleLengthMm }: FretInstrument): PathCost<number> {
  const own = Float64Array.from(shapes, ease);
  const hand = Float64Array.from(shapes, ({ handFret }) => fretMm(handFret, scaleLengthMm) / MM_A_UNIT);
  const count = Uint8Array.from(shapes, ({ midi }) => midi.length);
  const voices = new Uint8Array(shapes.length * ROW);
  const pressed = new Uint8Array(shapes.length * ROW);
  shapes.forEach(({ midi, frets }, shape) => {
    voices.set(midi.toReversed(), shape * ROW);
    pressed.set(
      frets.map((fret) => fret ?? 0),
      shape * ROW,
    );
  });
  const strings = shapes[0]?.frets.length ?? 0;

  const least = (from: number, to: number): number => {
    const before = hand[from] as number;
    const after = hand[to] as number;
    const shift = before === 0 || after === 0 ? 0 : Math.abs(before - after);
    const top = Math.abs((voices[from * ROW] as number) - (voices[to * ROW] as number));
    const more = Math.abs((count[from] as number) - (count[to] as number));
    return shift + Math.min(top, 2 * ENDS) + TOP * top + ENDS * more;
  };
  const beyond = (from: number, to: number, enough: number): number => {
    let cost = 0;
    const one = from * ROW;
    const other = to * ROW;
    const common = Math.min(count[from] as number, count[to] as number);
    for (let i = 1; i < common; i++) {
      const semitones = Math.abs((voices[one + i] as number) - (voices[other + i] as number));
      cost += Math.min(semitones, 2 * ENDS);
      if (cost >= enough) return cost;
    }
    for (let string = 0; string < strings; string++) {
      const fret = pressed[other + string] as number;
      if (fret !== 0 && fret !== pressed[one + string]) cost += PLACED;
    }
    return cost;
  };
  const group = (shape: number): number =>
    ((voices[shape * ROW] as number) * ROW + (count[shape] as number)) * MOST_FRETS +
    (shapes[shape]?.handFret ?? 0);
  return {
    own: (shape) => own[shape] as number,
    move: (from, to) => least(from, to) + beyond(from, to, Number.POSITIVE_INFINITY),
    parts: { group, least, beyond },
  };
}
