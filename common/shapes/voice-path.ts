import { goOn, type Moves, type Step } from './go-on.ts';
import { roundPath } from './round-path.ts';

/** What a path costs: each shape by itself, and each move from one to the next. Neither is ever negative. */
export interface PathCost<Shape> {
  readonly own: (shape: Shape) => number;
  /** May stop adding up at `enough` and return any number from there on. */
  readonly move: (from: Shape, to: Shape, enough?: number) => number;
  /** Makes long lists quick. */
  readonly bound?: PathBound<Shape>;
}

/** What a move costs at least, between shapes that are alike. */
export interface PathBound<Shape> {
  /** Shapes of one group are equal for `least`. */
  readonly group: (shape: Shape) => number;
  /** Never more than the move. */
  readonly least: (from: Shape, to: Shape) => number;
}

export interface PathOptions {
  /** Step index → index of the one shape to take there. */
  readonly pins?: ReadonlyMap<number, number>;
  /** The form goes round: the move from the last step to the first counts too. */
  readonly closed?: boolean;
}

/**
 * The index of the shape to take in each step, such that no path through the steps costs less.
 *
 * Dynamic programming from the last step back (Bellman 1957), see `goOn`; a closed path: see `roundPath`. Of paths
 * that cost the same one is taken, always the same one.
 *
 * @example voicePath([[1, 5], [4, 7], [8]], { own: () => 0, move: (a, b) => Math.abs(b - a) }) // [1, 1, 0]
 * @throws where a step has no shape or a pin names none: whoever calls leaves such steps out
 */
export function voicePath<Shape>(
  steps: readonly (readonly Shape[])[],
  cost: PathCost<Shape>,
  { pins, closed = false }: PathOptions = {},
): readonly number[] {
  const choices = steps.map((shapes, step) => choicesOf(shapes, step, cost, pins?.get(step)));
  const moves = steps.map((from, step) => movesOf(from, steps[(step + 1) % steps.length] ?? from, cost));
  const path = closed ? roundPath(choices, moves) : openPath(choices, moves);
  return path.map((choice, step) => (choices[step] as Step).indices[choice] as number);
}

function choicesOf<Shape>(
  shapes: readonly Shape[],
  step: number,
  { own, bound }: PathCost<Shape>,
  pin: number | undefined,
): Step {
  if (shapes.length === 0) throw new Error(`step ${step} has no shape, expected at least one`);
  const indices = pin === undefined ? shapes.map((_, index) => index) : [pin];
  const taken = indices.map((index) => {
    const shape = shapes[index];
    if (shape === undefined)
      throw new Error(`step ${step} is pinned to shape ${index}, expected 0 to ${shapes.length - 1}`);
    return shape;
  });
  const groups = new Map<number, number[]>();
  taken.forEach((shape, choice) => {
    const key = bound?.group(shape) ?? 0;
    const alike = groups.get(key);
    if (alike === undefined) groups.set(key, [choice]);
    else alike.push(choice);
  });
  return { indices, own: taken.map(own), groups: [...groups.values()] };
}

function movesOf<Shape>(
  from: readonly Shape[],
  to: readonly Shape[],
  { move, bound }: PathCost<Shape>,
): Moves {
  return {
    move: (i, k, enough) => move(from[i] as Shape, to[k] as Shape, enough),
    least: bound === undefined ? () => 0 : (i, k) => bound.least(from[i] as Shape, to[k] as Shape),
  };
}

function openPath(choices: readonly Step[], moves: readonly Moves[]): readonly number[] {
  const last = choices.at(-1);
  if (last === undefined) return [];
  const nexts: Int32Array[] = [];
  let togo = new Float64Array(last.own.length);
  for (let step = choices.length - 2; step >= 0; step--) {
    const continued = goOn(choices[step] as Step, choices[step + 1] as Step, togo, moves[step] as Moves);
    togo = continued.togo;
    nexts.unshift(continued.next);
  }
  const first = choices[0] as Step;
  let at = cheapest(first.own.map((own, i) => own + (togo[i] as number)));
  return [at, ...nexts.map((next) => (at = next[at] as number))];
}

function cheapest(costs: readonly number[]): number {
  return costs.reduce((best, cost, i) => (cost < (costs[best] as number) ? i : best), 0);
}
