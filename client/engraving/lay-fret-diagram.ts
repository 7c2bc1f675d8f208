import type { FretShape } from '../../common/shapes/fretboard/fret-shape.ts';

/** Measures of the drawing, in its own units. */
export const STRING_GAP = 22;
export const FRET_GAP = 30;
/** The first string from the side with the fret number, the last one from the other side. */
export const NUMBER_SIDE = 58;
export const OTHER_SIDE = 14;
/** Room for x and o above the nut, and under the last fret. */
export const ABOVE = 24;
export const BELOW = 5;
/** A narrow diagram has its fret number above, in room of its own, and is larger by what its side was. */
const NARROW_SIDE = 13;
const NARROW_ABOVE = 50;
const FEWEST_FRETS = 4;

export interface LaidString {
  readonly x: number;
  readonly sounds: boolean;
  /** Above the nut: silent, open, or neither. */
  readonly mark: 'x' | 'o' | null;
  /** Middle of the finger; null where nothing is pressed. */
  readonly y: number | null;
  readonly isRoot: boolean;
}

export interface LaidDiagram {
  readonly width: number;
  readonly height: number;
  readonly strings: readonly LaidString[];
  /** Heights of the frets, the nut or the upper edge first. */
  readonly frets: readonly number[];
  readonly leftX: number;
  readonly rightX: number;
  /** Where the signs above the strings lie. */
  readonly marksY: number;
  /** The diagram begins at the nut. */
  readonly hasNut: boolean;
  /** What is written beside the first fret that is drawn; null at the nut. */
  readonly number: { readonly fret: number; readonly x: number; readonly y: number } | null;
  readonly barres: readonly { readonly x1: number; readonly x2: number; readonly y: number }[];
}

const fretsOf = ({ frets }: FretShape) => {
  const pressed = frets.filter((fret) => fret !== null && fret > 0) as number[];
  const highest = Math.max(0, ...pressed);
  const first = highest <= FEWEST_FRETS ? 1 : Math.min(...pressed);
  return { first, count: Math.max(FEWEST_FRETS, highest - first + 1) };
};

/** How many frets its diagram shows. */
export const fretCount = (shape: FretShape): number => fretsOf(shape).count;

/**
 * Where everything of a diagram lies. It begins at the nut where all lies in the first four frets, else at the
 * lowest fret pressed, and shows four frets or as many as the shape has.
 * @param leftHanded mirrored: the lowest string on the right
 * @param narrow for a box that is higher than wide
 * @param leastFrets as many are shown at least: those of other diagrams in the line
 */
export function layFretDiagram(
  shape: FretShape,
  leftHanded: boolean,
  narrow = false,
  leastFrets = FEWEST_FRETS,
): LaidDiagram {
  const numberSide = narrow ? NARROW_SIDE : NUMBER_SIDE;
  const above = narrow ? NARROW_ABOVE + ABOVE : ABOVE;
  const { first, count: own } = fretsOf(shape);
  const count = Math.max(own, leastFrets);
  const last = shape.frets.length - 1;
  const width = numberSide + last * STRING_GAP + (narrow ? NARROW_SIDE : OTHER_SIDE);
  const xOf = (string: number): number => {
    const x = numberSide + string * STRING_GAP;
    return leftHanded ? width - x : x;
  };
  const yOf = (fret: number): number => above + (fret - first + 0.5) * FRET_GAP;
  const edges = [xOf(0), xOf(last)];
  return {
    width,
    height: above + count * FRET_GAP + BELOW,
    strings: shape.frets.map((fret, string) => ({
      x: xOf(string),
      sounds: fret !== null,
      mark: fret === null ? 'x' : fret === 0 ? 'o' : null,
      y: fret === null || fret === 0 ? null : yOf(fret),
      isRoot: shape.degrees[string] === '1',
    })),
    frets: Array.from({ length: count + 1 }, (_, i) => above + i * FRET_GAP),
    leftX: Math.min(...edges),
    rightX: Math.max(...edges),
    marksY: above - 12,
    hasNut: first === 1,
    number:
      first === 1
        ? null
        : narrow
          ? { fret: first, x: leftHanded ? width - 2 : 2, y: NARROW_ABOVE / 2 }
          : { fret: first, x: leftHanded ? width - numberSide + 14 : numberSide - 14, y: yOf(first) },
    barres: shape.barres.map(({ fret, firstString, lastString }) => ({
      x1: xOf(firstString),
      x2: xOf(lastString),
      y: yOf(fret),
    })),
  };
}

/**
 * The shape in words: frets from the first string to the last, then barres, then where the root lies.
 * @param strings names of the strings in that order
 * @example 'x 3 2 3 x x, root on the A string'
 */
export function fretDiagramWords(shape: FretShape, strings: readonly string[]): string {
  const { frets, degrees, barres } = shape;
  const roots = degrees.flatMap((degree, string) =>
    degree === '1' ? [strings[string] ?? `${string + 1}`] : [],
  );
  const [root, ...others] = roots;
  return [
    frets.map((fret) => fret ?? 'x').join(' '),
    ...barres.map(({ fret }) => `barre at fret ${fret}`),
    root === undefined
      ? 'without the root'
      : `root on the ${[root, ...others].join(' and ')} string${others.length === 0 ? '' : 's'}`,
  ].join(', ');
}
