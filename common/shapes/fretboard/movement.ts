import { type PathCost, SEMITONE_COST } from '../path-cost.ts';
import { FRET_BITS, type Grip, NO_VOICE, UPPER_VOICES, VOICE_BITS, VOICES_A_NUMBER } from './grip.ts';

/** A voice that ends or begins; one that leaps farther than twice this does both. */
const ENDS = 3 * SEMITONE_COST;
const TOP = SEMITONE_COST / 2;
const PLACED = SEMITONE_COST / 4;

/** A family: top voice, the voice below it and how many voices, in so many bits; a group: third voice and place of the hand. */
const COUNT_BITS = 4;
const HAND_BITS = 12;
const VOICE = (1 << VOICE_BITS) - 1;
const COUNT = (1 << COUNT_BITS) - 1;
const HAND = (1 << HAND_BITS) - 1;

/**
 * What paths through grips cost. In units of one voice moving by a semitone, a move costs
 * `shift + voices + top + placed` (SHAPE-15), where
 *
 * - `shift` is how far the hand moves along the neck, 1 for each 20 mm, none from or to open strings alone;
 * - `voices` are the semitones between voices that answer each other, counted from the top as the ear follows it, at
 *   most 6 for each: a voice that leaps farther ends and another begins; and 3 for each voice that one shape has more;
 * - `top` is half a unit more for each semitone of the top voice;
 * - `placed` is a quarter for each string that is pressed anew: of common tones, those are worth most that a finger holds.
 *
 * A shape by itself costs its `ease`. The weights are our own.
 */
export const MOVEMENT: PathCost<Grip> = {
  own: ({ own }) => own,
  move: (from, to) =>
    betweenFamilies(familyOf(from), familyOf(to)) +
    betweenGroups(groupOf(from), groupOf(to)) +
    rest(from, to),
  parts: { family: familyOf, betweenFamilies, group: groupOf, betweenGroups, rest },
};

function familyOf({ top, second, voices }: Grip): number {
  return (((top << VOICE_BITS) | second) << COUNT_BITS) | voices;
}

function betweenFamilies(from: number, to: number): number {
  const one = from >> COUNT_BITS;
  const other = to >> COUNT_BITS;
  const top = one >> VOICE_BITS;
  const otherTop = other >> VOICE_BITS;
  return (
    leapt(top - otherTop) +
    TOP * Math.abs(top - otherTop) +
    voiceMoved(one & VOICE, other & VOICE) +
    ENDS * Math.abs((from & COUNT) - (to & COUNT))
  );
}

function groupOf({ third, hand }: Grip): number {
  return (third << HAND_BITS) | hand;
}

function betweenGroups(from: number, to: number): number {
  const hand = from & HAND;
  const otherHand = to & HAND;
  const shift = hand === 0 || otherHand === 0 ? 0 : Math.abs(hand - otherHand);
  return shift + voiceMoved(from >> HAND_BITS, to >> HAND_BITS);
}

function rest(from: Grip, to: Grip): number {
  const common = Math.min(from.voices, to.voices);
  let cost = PLACED * pressedAnew(from.pressed, to.pressed);
  if (to.pressedBeyond !== 0) cost += PLACED * pressedAnew(from.pressedBeyond, to.pressedBeyond);
  let one = from.lower;
  let other = to.lower;
  for (let voice = UPPER_VOICES; voice < common; voice++) {
    if (voice === UPPER_VOICES + VOICES_A_NUMBER) {
      one = from.lowest;
      other = to.lowest;
    }
    cost += leapt((one & VOICE) - (other & VOICE));
    one >>= VOICE_BITS;
    other >>= VOICE_BITS;
  }
  return cost;
}

function voiceMoved(from: number, to: number): number {
  return from === NO_VOICE || to === NO_VOICE ? 0 : leapt(from - to);
}

function leapt(semitones: number): number {
  return Math.min(SEMITONE_COST * Math.abs(semitones), 2 * ENDS);
}

/** The lowest bit of each string. */
const STRINGS = 0b00001_00001_00001_00001_00001_00001;
const ALL_BUT_HIGHEST = 5 * FRET_BITS;

/** How many strings are pressed in the second that are not, or elsewhere, in the first; all six are looked at at once. */
function pressedAnew(from: number, to: number): number {
  const anew = isAny(from ^ to) & isAny(to) & STRINGS;
  // Adds up the strings in the bits of the highest one.
  return (Math.imul(anew, STRINGS) >>> ALL_BUT_HIGHEST) & ((1 << FRET_BITS) - 1);
}

/** In the lowest bit of each string, whether any of its bits is set. */
function isAny(frets: number): number {
  const pairs = frets | (frets >>> 1);
  return pairs | (pairs >>> 2) | (frets >>> 4);
}
