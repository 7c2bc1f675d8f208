import { goOn, type Moves, type Step } from './go-on.ts';
import { roundPath } from './round-path.ts';

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
  { own, parts }: PathCost<Shape>,
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
    const key = parts?.group(shape) ?? 0;
    const alike = groups.get(key);
    if (alike === undefined) groups.set(key, [choice]);
    else alike.push(choice);
  });
  return { indices, own: taken.map(own), groups: [...groups.values()] };
}

function movesOf<Shape>(
  from: readonly Shape[],
  to: readonly Shape[],
  { move, parts }: PathCost<Shape>,
): Moves {
  if (parts === undefined)
    return { least: () => 0, beyond: (i, k) => move(from[i] as Shape, to[k] as Shape) };
  const { least, beyond } = parts;
  return {
    least: (i, k) => least(from[i] as Shape, to[k] as Shape),
    beyond: (i, k, enough) => beyond(from[i] as Shape, to[k] as Shape, enough),
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
