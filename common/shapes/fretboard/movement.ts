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
/** Stands for a voice that a shape does not have. */
const NONE = 0;

/** A family: top voice, the voice below it and how many voices, in so many bits; a group: third voice and fret of the hand. */
const COUNT_BITS = 4;
const MIDI_BITS = 7;
const FRET_BITS = 5;
const COUNTS = (1 << COUNT_BITS) - 1;
const MIDIS = (1 << MIDI_BITS) - 1;
const FRETS = (1 << FRET_BITS) - 1;

/** A cost for each pair of numbers of so many bits. */
const pairs = (bits: number, cost: (from: number, to: number) => number): Float64Array =>
  Float64Array.from({ length: 1 << (2 * bits) }, (_, pair) => cost(pair >> bits, pair & ((1 << bits) - 1)));

const VOICE_COST = pairs(MIDI_BITS, (from, to) =>
  from === NONE || to === NONE ? 0 : Math.min(Math.abs(from - to), 2 * ENDS),
);
const TOP_COST = pairs(
  MIDI_BITS,
  (from, to) => Math.min(Math.abs(from - to), 2 * ENDS) + TOP * Math.abs(from - to),
);

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
export function movement(shapes: readonly FretShape[], instrument: FretInstrument): PathCost<number> {
  const { scaleLengthMm } = instrument;
  const own = Float64Array.from(shapes, (shape) => ease(shape, instrument));
  const shifts = pairs(FRET_BITS, (from, to) =>
    from === 0 || to === 0
      ? 0
      : Math.abs(fretMm(from, scaleLengthMm) - fretMm(to, scaleLengthMm)) / MM_A_UNIT,
  );
  const families = Int32Array.from(shapes, ({ midi }) => {
    const [top = NONE, second = NONE] = midi.toReversed();
    return (((top << MIDI_BITS) | second) << COUNT_BITS) | midi.length;
  });
  const groups = Int32Array.from(
    shapes,
    ({ midi, handFret }) => ((midi.at(-3) ?? NONE) << FRET_BITS) | handFret,
  );
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

  const voiceMoved = (from: number, to: number): number =>
    VOICE_COST[((from & MIDIS) << MIDI_BITS) | (to & MIDIS)] as number;
  const betweenFamilies = (from: number, to: number): number => {
    const one = from >> COUNT_BITS;
    const other = to >> COUNT_BITS;
    const top = TOP_COST[((one >> MIDI_BITS) << MIDI_BITS) | (other >> MIDI_BITS)] as number;
    return top + voiceMoved(one, other) + ENDS * Math.abs((from & COUNTS) - (to & COUNTS));
  };
  const betweenGroups = (from: number, to: number): number =>
    (shifts[((from & FRETS) << FRET_BITS) | (to & FRETS)] as number) +
    voiceMoved(from >> FRET_BITS, to >> FRET_BITS);
  const rest = (from: number, to: number): number => {
    const one = from * ROW;
    const other = to * ROW;
    const common = Math.min(count[from] as number, count[to] as number);
    let cost = 0;
    for (let voice = 3; voice < common; voice++)
      cost += voiceMoved(voices[one + voice] as number, voices[other + voice] as number);
    for (let string = 0; string < strings; string++) {
      const fret = pressed[other + string] as number;
      if (fret !== 0 && fret !== pressed[one + string]) cost += PLACED;
    }
    return cost;
  };
  return {
    own: (shape) => own[shape] as number,
    move: (from, to) =>
      betweenFamilies(families[from] as number, families[to] as number) +
      betweenGroups(groups[from] as number, groups[to] as number) +
      rest(from, to),
    parts: {
      family: (shape) => families[shape] as number,
      betweenFamilies,
      group: (shape) => groups[shape] as number,
      betweenGroups,
      rest,
    },
  };
}
