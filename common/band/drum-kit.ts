/**
 * Keys of the General MIDI percussion map (MIDI Manufacturers Association, General MIDI System Level 1; the brushes as
 * in the Brush set of General MIDI 2; from memory).
 */
export const DRUMS = {
  kick: 36,
  sideStick: 37,
  snare: 38,
  /** In the Brush set: a slap and a stir. */
  slap: 39,
  stir: 40,
  lowTom: 43,
  closedHat: 42,
  footHat: 44,
  openHat: 46,
  midTom: 47,
  crash: 49,
  highTom: 50,
  ride: 51,
  rideBell: 53,
  cowbell: 56,
  highBlock: 76,
  lowBlock: 77,
} as const;

export type Drum = keyof typeof DRUMS;
