/** What one voice costs that moves by a semitone: costs are whole numbers, so that they add up alike in any order. */
export const SEMITONE_COST = 64;

/** More than any path costs. */
export const NO_WAY = 2 ** 30;

/**
 * What a path costs: each shape by itself, and each move from one to the next. Whole numbers, never negative; those of
 * a path together stay below `NO_WAY`.
 */
export interface PathCost<Shape> {
  readonly own: (shape: Shape) => number;
  readonly move: (from: Shape, to: Shape) => number;
  /** Makes long lists quick. */
  readonly parts?: MoveParts<Shape>;
}

/** A move in three parts that add up to it, none of them negative: what many shapes share, what some share, the rest. */
export interface MoveParts<Shape> {
  /** The family of a shape, a whole number of at most 31 bits, and what moves between families cost. */
  readonly family: (shape: Shape) => number;
  readonly betweenFamilies: (from: number, to: number) => number;
  /** Within its family a shape is in a group, a whole number of at most 20 bits; what moves between groups cost beside that, of whatever families. */
  readonly group: (shape: Shape) => number;
  readonly betweenGroups: (from: number, to: number) => number;
  readonly rest: (from: Shape, to: Shape) => number;
}

/** A cost of which the moves come in parts. */
export type DividedCost<Shape> = PathCost<Shape> & { readonly parts: MoveParts<Shape> };
