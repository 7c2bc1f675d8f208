import type { DividedCost } from './path-cost.ts';
import type { Step } from './step.ts';

/** What moves between the groups of a path cost, reckoned once: a path asks for the same ones many times. */
export interface GroupCosts {
  /** By group, its number among all different groups of the path; by step as it was given. */
  readonly numbersOf: ReadonlyMap<Step<unknown>, Int32Array>;
  /** How many different groups there are; the cost from one to another is at `from * count + to`. */
  readonly count: number;
  readonly cost: Int32Array;
}

export function groupCosts<Shape>(
  steps: readonly Step<Shape>[],
  { parts: { betweenGroups } }: DividedCost<Shape>,
): GroupCosts {
  const numbers = new Map<number, number>();
  const numbersOf = new Map<Step<unknown>, Int32Array>();
  for (const step of steps) {
    if (numbersOf.has(step)) continue;
    const { groups, groupOf } = step;
    const own = new Int32Array(groups.length - 1);
    for (let at = 0; at < own.length; at++) {
      const group = groupOf[groups[at] as number] as number;
      const number = numbers.get(group) ?? numbers.size;
      numbers.set(group, number);
      own[at] = number;
    }
    numbersOf.set(step, own);
  }
  const every = [...numbers.keys()];
  const cost = new Int32Array(every.length ** 2);
  every.forEach((from, row) => {
    every.forEach((to, column) => {
      cost[row * every.length + column] = betweenGroups(from, to);
    });
  });
  return { numbersOf, count: every.length, cost };
}
