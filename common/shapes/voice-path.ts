import { goOn } from './go-on.ts';
import { groupCosts } from './group-costs.ts';
import type { DividedCost, MoveParts, PathCost } from './path-cost.ts';
import { roundPath } from './round-path.ts';
import { cheapFirst, type Step, stepOf, totalsOf } from './step.ts';

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
  const divided = { ...cost, parts: cost.parts ?? undivided(cost) };
  const choices = steps.map((list, step) => {
    if (list.length === 0) throw new Error(`step ${step} has no shape, expected at least one`);
    const pin = pins?.get(step);
    if (pin !== undefined && list[pin] === undefined)
      throw new Error(`step ${step} is pinned to shape ${pin}, expected 0 to ${list.length - 1}`);
    if (pin !== undefined) return stepOf(list, [pin], divided);
    return wholeStep(list, cost, divided);
  });
  const path = closed ? roundPath(choices, divided) : openPath(choices, divided);
  return path.map((choice, step) => (choices[step] as Step<Shape>).indices[choice] as number);
}

/** By cost and list, so that a form is not divided anew where little of it has changed. */
const known = new WeakMap<object, WeakMap<object, Step<unknown>>>();

function wholeStep<Shape>(
  list: readonly Shape[],
  cost: PathCost<Shape>,
  divided: DividedCost<Shape>,
): Step<Shape> {
  const ofCost = known.get(cost) ?? new WeakMap<object, Step<unknown>>();
  known.set(cost, ofCost);
  const step = (ofCost.get(list) as Step<Shape> | undefined) ?? stepOf(list, [...list.keys()], divided);
  ofCost.set(list, step);
  return step;
}

const undivided = <Shape>({ move }: PathCost<Shape>): MoveParts<Shape> => ({
  family: () => 0,
  betweenFamilies: () => 0,
  group: () => 0,
  betweenGroups: () => 0,
  rest: move,
});

function openPath<Shape>(steps: readonly Step<Shape>[], cost: DividedCost<Shape>): readonly number[] {
  const last = steps.at(-1);
  if (last === undefined) return [];
  const between = groupCosts(steps, cost);
  const nexts: Int32Array[] = [];
  let to = last;
  let togo: Int32Array = new Int32Array(last.own.length);
  for (const from of steps.slice(0, -1).reverse()) {
    const continued = goOn(from, to, togo, cost, between);
    to = from;
    togo = continued.togo;
    nexts.unshift(continued.next);
  }
  let at = cheapFirst(totalsOf(to, togo))[0] as number;
  return [at, ...nexts.map((next) => (at = next[at] as number))];
}
