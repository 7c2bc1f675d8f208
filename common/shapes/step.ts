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

/** The choices of a list: all of it, or the one that is pinned. */
export function stepOf<Shape>(
  list: readonly Shape[],
  listed: readonly number[],
  { own, parts: { family, group } }: DividedCost<Shape>,
): Step<Shape> {
  const count = listed.length;
  // Sorted by group, then by family: of one family they stay in the order of their groups.
  const byGroup = cheapFirst(valuesOf(count, (at) => group(list[listed[at] as number] as Shape)));
  const indexAt = (at: number): number => listed[byGroup[at] as number] as number;
  const byFamily = cheapFirst(valuesOf(count, (at) => family(list[indexAt(at)] as Shape)));
  const indices = valuesOf(count, (choice) => indexAt(byFamily[choice] as number));
  const shapes: Shape[] = [];
  for (const index of indices) shapes.push(list[index] as Shape);
  const familyOf = valuesOf(count, (choice) => family(shapes[choice] as Shape));
  const groupOf = valuesOf(count, (choice) => group(shapes[choice] as Shape));
  const groups: number[] = [];
  const families: number[] = [];
  for (let choice = 0; choice < count; choice++) {
    const isKin = choice > 0 && familyOf[choice] === familyOf[choice - 1];
    if (!isKin) families.push(groups.length);
    if (!isKin || groupOf[choice] !== groupOf[choice - 1]) groups.push(choice);
  }
  return {
    indices,
    shapes,
    own: valuesOf(count, (choice) => own(shapes[choice] as Shape)),
    familyOf,
    groupOf,
    groups: Int32Array.from([...groups, count]),
    families: Int32Array.from([...families, groups.length]),
  };
}

/** A loop and not `from`, which takes ten times as long. */
function valuesOf(count: number, valueAt: (at: number) => number): Int32Array {
  const values = new Int32Array(count);
  for (let at = 0; at < count; at++) values[at] = valueAt(at);
  return values;
}

/** By choice, what it costs from there to the end. */
export function totalsOf({ own }: Pick<Step<unknown>, 'own'>, togo: Int32Array): Int32Array {
  return valuesOf(own.length, (choice) => (own[choice] as number) + (togo[choice] as number));
}

/** More than a list has; a cost and a place in one number are sorted much quicker than by comparing. */
const PLACES = 2 ** 20;

/** Places with the cheap ones first; of equal ones the first. */
export function cheapFirst(cost: Int32Array): Int32Array {
  const keys = new Float64Array(cost.length);
  for (let place = 0; place < keys.length; place++) keys[place] = (cost[place] as number) * PLACES + place;
  keys.sort();
  return valuesOf(keys.length, (at) => (keys[at] as number) % PLACES);
}
