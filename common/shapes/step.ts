import type { DividedCost } from './path-cost.ts';

/** What may be taken in one step. Choices are counted from 0, group after group, family after family. */
export interface Step<Shape> {
  /** By choice, its index in the list that was given. */
  readonly indices: Int32Array;
  readonly shapes: readonly Shape[];
  /** By choice, what it costs by itself. */
  readonly own: Int32Array;
  /** By choice, as the cost divides shapes. */
  readonly familyOf: Int32Array;
  readonly groupOf: Int32Array;
  /** By group, its first choice; then how many choices there are. */
  readonly groups: Int32Array;
  /** By family, its first group; then how many groups there are. */
  readonly families: Int32Array;
}

/** Family, group and index in one number of 53 bits, which sorts much quicker than by comparing. */
const GROUPS = 2 ** 20;
const INDICES = 2 ** 15;

/**
 * The choices of a list: all of it, or the one that is pinned.
 * @throws where a list has more than 32,768 shapes
 */
export function stepOf<Shape>(
  list: readonly Shape[],
  listed: readonly number[],
  { own, parts: { family, group } }: DividedCost<Shape>,
): Step<Shape> {
  if (list.length > INDICES) throw new Error(`${list.length} shapes for a step, expected at most ${INDICES}`);
  const keys = new Float64Array(listed.length);
  for (let at = 0; at < keys.length; at++) {
    const index = listed[at] as number;
    const shape = list[index] as Shape;
    keys[at] = (family(shape) * GROUPS + group(shape)) * INDICES + index;
  }
  const count = keys.sort().length;
  const indices = new Int32Array(count);
  const familyOf = new Int32Array(count);
  const groupOf = new Int32Array(count);
  const ownOf = new Int32Array(count);
  const shapes: Shape[] = [];
  const firstChoices: number[] = [];
  const firstGroups: number[] = [];
  for (let choice = 0; choice < count; choice++) {
    const index = (keys[choice] as number) % INDICES;
    const shape = list[index] as Shape;
    shapes.push(shape);
    indices[choice] = index;
    ownOf[choice] = own(shape);
    familyOf[choice] = family(shape);
    groupOf[choice] = group(shape);
    const isKin = choice > 0 && familyOf[choice] === familyOf[choice - 1];
    if (!isKin) firstGroups.push(firstChoices.length);
    if (!isKin || groupOf[choice] !== groupOf[choice - 1]) firstChoices.push(choice);
  }
  return {
    indices,
    shapes,
    own: ownOf,
    familyOf,
    groupOf,
    groups: Int32Array.from([...firstChoices, count]),
    families: Int32Array.from([...firstGroups, firstChoices.length]),
  };
}

/** By choice, what it costs from there to the end. */
export function totalsOf({ own }: Pick<Step<unknown>, 'own'>, togo: Int32Array): Int32Array {
  const total = new Int32Array(own.length);
  for (let choice = 0; choice < total.length; choice++)
    total[choice] = (own[choice] as number) + (togo[choice] as number);
  return total;
}

const PLACES = 2 ** 20;

/** Places with the cheap ones first; of equal ones the first. */
export function cheapFirst(cost: Int32Array): Int32Array {
  const keys = new Float64Array(cost.length);
  for (let place = 0; place < keys.length; place++) keys[place] = (cost[place] as number) * PLACES + place;
  return Int32Array.from(keys.sort(), (key) => key % PLACES);
}
