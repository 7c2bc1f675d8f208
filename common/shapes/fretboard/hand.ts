/**
 * How far a hand reaches along the neck, for guitar, bass and ukulele alike, since hands are as large on all of
 * them. By equal temperament frets lie closer the higher they are, so one limit in millimetres lets the hand
 * span three frets at the nut of a guitar, four from the fifth fret on and two at the nut of a bass.
 * From memory; held against the fingered shapes of an open dataset in `tests/published/fretboard`.
 */
const REACH_MM: readonly number[] = [0, 70, 100, 105];

/** Four fingers cover four frets and stretch over one more. */
export const WIDEST_SPAN_FRETS = 4;

/** The farthest that any two fretted notes may lie apart. */
export const WIDEST_REACH_MM = 105;

/** The farthest that two fingers may lie apart: neighbours (1) 70 mm, index and little finger (3) 105 mm. */
export const reachMm = (fingersApart: number): number => REACH_MM[fingersApart] ?? 0;

/**
 * How far a fret lies from the nut in mm: `L · (1 − 2^(−n/12))`, so that each fret shortens the string by the same
 * ratio, a semitone of equal temperament; the twelfth lies in the middle. The rule of thumb of makers, `L / 17.817`
 * for the next fret, is the same: `1 − 2^(−1/12) = 1 / 17.817`.
 * @example fretMm(12, 650) // 325
 */
export const fretMm = (fret: number, scaleLengthMm: number): number =>
  scaleLengthMm * (1 - 2 ** (-fret / 12));

/** `fretMm` of the nut and each fret up to the highest. */
export const fretsMm = (highestFret: number, scaleLengthMm: number): readonly number[] =>
  Array.from({ length: highestFret + 1 }, (_, fret) => fretMm(fret, scaleLengthMm));
