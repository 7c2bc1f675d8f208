/** What a path costs: each shape by itself, and each move from one to the next. Neither is ever negative. */
export interface PathCost<Shape> {
  readonly own: (shape: Shape) => number;
  readonly move: (from: Shape, to: Shape) => number;
  /** Makes long lists quick. */
  readonly parts?: MoveParts<Shape>;
}

/** A move in two parts, `least + beyond`: one that many shapes share, and the rest. Neither is negative. */
export interface MoveParts<Shape> {
  /** Shapes of one group are equal for `least`. */
  readonly group: (shape: Shape) => number;
  readonly least: (from: Shape, to: Shape) => number;
  /** May stop adding up at `enough` and return any number from there on. */
  readonly beyond: (from: Shape, to: Shape, enough: number) => number;
}
