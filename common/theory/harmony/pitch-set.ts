/** Sets of pitch classes as twelve bits, C the lowest: cheap to turn and to compare. */
export const maskOf = (pitchClasses: readonly number[]): number =>
  pitchClasses.reduce((mask, pitchClass) => mask | (1 << pitchClass), 0);

/** Every note of the one is in the other. */
export const isWithin = (mask: number, whole: number): boolean => (mask & ~whole) === 0;

export const contains = (mask: number, pitchClass: number): boolean => (mask & (1 << pitchClass)) !== 0;

/** The set moved up by 0–11 semitones. */
export const turned = (mask: number, semitones: number): number =>
  ((mask << semitones) | (mask >> (12 - semitones))) & 0xfff;

/** Semitones from one pitch class up to another, 0–11. */
export const semitonesUp = (from: number, to: number): number => (((to - from) % 12) + 12) % 12;
