import { pitchClassOf } from '../theory/pitch.ts';
import { chance } from './chance.ts';
import type { Chord } from './changes.ts';

/** What the bass plays: E1 to G3 as it sounds. MIDI numbers, ends included. */
export const BASS_RANGE = { low: 28, high: 55 };

/** Roots lie up to here, so that there is room above them. */
const HIGHEST_ROOT = 43;
/** What a chance is for. */
const OCTAVE = 11;

/** The lowest pitch of its class from `low` on. */
const from = (low: number, pitchClass: number): number => low + ((((pitchClass - low) % 12) + 12) % 12);

/** The root, or the bass after the slash, as a pitch class. */
export const bassClassOf = ({ symbol }: Chord): number => pitchClassOf(symbol.bass ?? symbol.root);

/**
 * Where the bass of a chord lies: in the lowest octave, or now and then in the one above. The same for the same
 * chord of the same bar, so that the bar before it knows where to go.
 */
export const bassPitch = (chord: Chord, seed: number, barIndex: number, changeIndex: number): number => {
  const low = from(BASS_RANGE.low, bassClassOf(chord));
  const isHigh = low + 12 <= HIGHEST_ROOT && chance(seed, barIndex, OCTAVE, changeIndex) < 0.5;
  return isHigh ? low + 12 : low;
};

/** The pitch of a class above another pitch, below it where that would leave the range. */
export const above = (pitch: number, pitchClass: number): number => {
  const up = from(pitch + 1, pitchClass);
  return up <= BASS_RANGE.high ? up : up - 12;
};

/** The pitch of a class that is nearest to another, within the range. */
export const nearest = (pitch: number, pitchClass: number): number => {
  const up = from(pitch - 5, pitchClass);
  if (up < BASS_RANGE.low) return up + 12;
  return up > BASS_RANGE.high ? up - 12 : up;
};

/** The next pitch from one on, up (1) or down (−1), whose class is among these; it turns at the end of the range. */
export const stepTo = (
  pitch: number,
  direction: 1 | -1,
  classes: readonly number[],
): { readonly pitch: number; readonly direction: 1 | -1 } => {
  for (const way of [direction, direction === 1 ? -1 : 1] as const) {
    for (let at = pitch + way; at >= BASS_RANGE.low && at <= BASS_RANGE.high; at += way) {
      if (classes.includes(((at % 12) + 12) % 12)) return { pitch: at, direction: way };
    }
  }
  return { pitch, direction };
};
