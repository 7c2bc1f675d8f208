import type { MoveParts, PathCost } from './path-cost.ts';

/** What may be taken in one step. Choices are counted from 0. */
export interface Step<Shape> {
  /** By choice, its index in the list that was given. */
  readonly indices: readonly number[];
  readonly shapes: readonly Shape[];
  /** By choice, what it costs by itself. */
  readonly own: Float64Array;
  /** Choices that are alike for the first part of a move; each choice is in one group. */
  readonly groups: readonly (readonly number[])[];
}

/** The choices of a list: all of it, or the one that is pinned. */
export function stepOf<Shape>(
  list: readonly Shape[],
  indices: readonly number[],
  ownOf: PathCost<Shape>['own'],
  { group }: MoveParts<Shape>,
): Step<Shape> {
  const shapes = indices.map((index) => list[index] as Shape);
  const own = Float64Array.from(shapes, ownOf);
  const groups = new Map<number, number[]>();
  shapes.forEach((shape, choice) => {
    const key = group(shape);
    const alike = groups.get(key);
    if (alike === undefined) groups.set(key, [choice]);
    else alike.push(choice);
  });
  return { indices, shapes, own, groups: [...groups.values()] };
}

/** By choice, what it costs from there to the end. */
export const totalsOf = ({ own }: Pick<Step<unknown>, 'own'>, togo: Float64Array): Float64Array =>
  own.map((cost, choice) => cost + (togo[choice] as number));

/** Choices with the cheap ones first; of equal ones the first. */
export const cheapFirst = (choices: readonly number[], cost: Float64Array): number[] =>
  [...choices].sort((a, b) => (cost[a] as number) - (cost[b] as number) || a - b);
