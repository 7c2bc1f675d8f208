import type { DividedCost } from './path-cost.ts';

/** What may be taken in one step. Choices are counted from 0, group after group, family after family. */
export interface Step<Shape> {
  /** By choice, its index in the list that was given. */
  readonly indices: readonly number[];
  readonly shapes: readonly Shape[];
  /** By choice, what it costs by itself. */
  readonly own: Float64Array;
  /** By choice, as the cost divides shapes. */
  readonly familyOf: Int32Array;
  readonly groupOf: Int32Array;
  /** By group, its first choice; then how many choices there are. */
  readonly groups: Int32Array;
  /** By family, its first group; then how many groups there are. */
  readonly families: Int32Array;
}

/** A group is a whole number of at most so many bits. */
const GROUP_BITS = 20;

/** The choices of a list: all of it, or the one that is pinned. */
export function stepOf<Shape>(
  list: readonly Shape[],
  indices: readonly number[],
  { own, parts: { family, group } }: DividedCost<Shape>,
): Step<Shape> {
  // Loops and not `from`: the lists of a form have tens of thousands of shapes, and `from` takes ten times as long.
  const keys = new Float64Array(list.length);
  for (const index of indices) {
    const shape = list[index] as Shape;
    keys[index] = family(shape) * 2 ** GROUP_BITS + group(shape);
  }
  const order = [...indices].sort((a, b) => (keys[a] as number) - (keys[b] as number) || a - b);
  const familyOf = new Int32Array(order.length);
  const groupOf = new Int32Array(order.length);
  const ownOf = new Float64Array(order.length);
  const firstChoices: number[] = [];
  const firstGroups: number[] = [];
  for (let choice = 0; choice < order.length; choice++) {
    const shape = list[order[choice] as number] as Shape;
    ownOf[choice] = own(shape);
    familyOf[choice] = family(shape);
    groupOf[choice] = group(shape);
    const isKin = choice > 0 && familyOf[choice] === familyOf[choice - 1];
    if (!isKin) firstGroups.push(firstChoices.length);
    if (!isKin || groupOf[choice] !== groupOf[choice - 1]) firstChoices.push(choice);
  }
  return {
    indices: order,
    shapes: order.map((index) => list[index] as Shape),
    own: ownOf,
    familyOf,
    groupOf,
    groups: Int32Array.from([...firstChoices, order.length]),
    families: Int32Array.from([...firstGroups, firstChoices.length]),
  };
}

/** By choice, what it costs from there to the end. */
export const totalsOf = ({ own }: Pick<Step<unknown>, 'own'>, togo: Float64Array): Float64Array =>
  own.map((cost, choice) => cost + (togo[choice] as number));

/** Choices with the cheap ones first; of equal ones the first. */
export const cheapFirst = (cost: Float64Array): number[] =>
  [...cost.keys()].sort((a, b) => (cost[a] as number) - (cost[b] as number) || a - b);
