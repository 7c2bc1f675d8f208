/** A key of the keyboard as it is drawn. Units: a white key is 10 wide. */
export interface LaidKey {
  readonly pitch: number;
  readonly isBlack: boolean;
  /** Its left edge. */
  readonly x: number;
  readonly width: number;
  readonly length: number;
}

export interface LaidKeyboard {
  /** White ones first, as they lie below the black ones. */
  readonly keys: readonly LaidKey[];
  readonly width: number;
  /** Of the white keys. */
  readonly length: number;
  /** The largest size of a name beside it. */
  readonly nameSize: number;
}

const WHITE_WIDTH = 10;
const BLACK_WIDTH = 6.4;
/** A keyboard of many keys has long ones and large names: it is drawn as wide as one of few, and read as well. */
const LENGTH = { least: 34, ofWidth: 0.26 };
const NAME = { least: 9, ofWidth: 0.085 };
/** Of a black key, beside a white one. */
const BLACK_LENGTH = 0.62;

/** Where a black key's middle lies over the gap between its white ones, by its pitch class. */
const BLACK_SHIFT: Readonly<Record<number, number>> = { 1: -0.9, 3: 0.9, 6: -1.2, 8: 0, 10: 1.2 };

const pitchClass = (pitch: number): number => ((pitch % 12) + 12) % 12;
const isBlack = (pitch: number): boolean => pitchClass(pitch) in BLACK_SHIFT;

const beginsThere = (pitch: number): boolean => pitchClass(pitch) === 0 || pitchClass(pitch) === 5;
const endsThere = (pitch: number): boolean => pitchClass(pitch) === 4 || pitchClass(pitch) === 11;

const MIDDLE_C = 60;

/** Fewer keys look like no keyboard: an octave from F to E, or from C to B. */
const LEAST_SEMITONES = 11;

/**
 * The keys from the C or F at or below the lowest pitch to the E or B at or above the highest, at least an octave: ends
 * between two white keys, where the hand knows its place.
 * @param pitches MIDI numbers of the keys pressed
 * @param longAs keys are as long as on a keyboard of this width
 */
export const layKeyboard = (pitches: readonly number[], longAs = 0): LaidKeyboard => {
  let from = pitches.length === 0 ? MIDDLE_C : Math.min(...pitches);
  while (!beginsThere(from)) from -= 1;
  let to = Math.max(from + LEAST_SEMITONES, ...pitches);
  while (!endsThere(to)) to += 1;
  const whites = Array.from({ length: to - from + 1 }, (_, at) => from + at).filter(
    (pitch) => !isBlack(pitch),
  );
  const width = whites.length * WHITE_WIDTH;
  const length = Math.max(LENGTH.least, LENGTH.ofWidth * Math.max(width, longAs));
  const white = whites.map((pitch, at) => ({
    pitch,
    isBlack: false,
    x: at * WHITE_WIDTH,
    width: WHITE_WIDTH,
    length,
  }));
  const black = white.flatMap(({ pitch, x }): LaidKey[] => {
    const next = pitch + 1;
    if (next > to || !isBlack(next)) return [];
    const middle = x + WHITE_WIDTH + (BLACK_SHIFT[pitchClass(next)] ?? 0);
    return [
      {
        pitch: next,
        isBlack: true,
        x: middle - BLACK_WIDTH / 2,
        width: BLACK_WIDTH,
        length: length * BLACK_LENGTH,
      },
    ];
  });
  return { keys: [...white, ...black], width, length, nameSize: Math.max(NAME.least, NAME.ofWidth * width) };
};
