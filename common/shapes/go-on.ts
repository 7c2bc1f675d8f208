import type { DividedCost, MoveParts } from './path-cost.ts';
import { cheapFirst, type Step, totalsOf } from './step.ts';

/** By choice of a step: the least cost of all that comes after it, and the choice that leads there. */
export interface Continued {
  readonly togo: Float64Array;
  readonly next: Int32Array;
}

/**
 * The best way on from each choice of `from` into `to`, where `after` is the least cost after each choice of `to`:
 * `togo(s) = min over t of move(s, t) + own(t) + after(t)`.
 *
 * The t are tried family by family and group by group. No part of a move is negative, so a family, group or choice is
 * left out where its lowest `own(t) + after(t)`, and what is known of the move into it, reach the best found; the
 * families in rising order of that lowest sum, so that the first which reaches it alone ends the search. Nothing
 * cheaper is missed. All sums lie in flat arrays: a form over all shapes of a guitar asks for millions.
 */
export function goOn<Shape>(
  from: Step<Shape>,
  to: Step<Shape>,
  after: Float64Array,
  cost: DividedCost<Shape>,
): Continued {
  const search = searchIn(to, totalsOf(to, after), cost);
  const { families, groups, familyOf } = from;
  const togo = new Float64Array(from.shapes.length);
  const next = new Int32Array(from.shapes.length);
  for (let family = 0; family + 1 < families.length; family++) {
    const end = families[family + 1] as number;
    let group = families[family] as number;
    enterFamilies(search, familyOf[groups[group] as number] as number);
    for (; group < end; group++) {
      const afterGroup = groups[group + 1] as number;
      for (let choice = groups[group] as number; choice < afterGroup; choice++)
        findBest(search, from, group, choice, togo, next);
    }
  }
  return { togo, next };
}

/** What a step is searched by. */
interface Search<Shape>
  extends Pick<Step<Shape>, 'shapes' | 'groups'>,
    Pick<DividedCost<Shape>, 'move'>,
    Pick<MoveParts<Shape>, 'betweenFamilies' | 'betweenGroups' | 'rest'> {
  /** By choice, own cost and all that comes after. */
  readonly total: Float64Array;
  /** By group, the lowest total; which it is. */
  readonly groupLow: Float64Array;
  readonly group: Int32Array;
  /** Families in rising order of their lowest total: that total, which they are, their first group and the one after their last. */
  readonly familyLow: Float64Array;
  readonly family: Int32Array;
  readonly groupFrom: Int32Array;
  readonly groupUntil: Int32Array;
  /** Costs of the moves from one family into families, in their order; of the first two parts into groups. */
  readonly intoFamily: Float64Array;
  readonly intoGroup: Float64Array;
  /** The group that is come from for which `intoGroup` holds. */
  readonly heldFor: Int32Array;
  /** In their order, the family into which the way seems cheapest. */
  nearest: number;
  /** The choice that was best for the shape before. */
  found: number;
}

function searchIn<Shape>(
  { shapes, groups, families, familyOf, groupOf }: Step<Shape>,
  total: Float64Array,
  { move, parts: { betweenFamilies, betweenGroups, rest } }: DividedCost<Shape>,
): Search<Shape> {
  const groupLow = lowestOf(groups, total);
  const lowOf = lowestOf(families, groupLow);
  const order = Int32Array.from(cheapFirst(lowOf));
  return {
    shapes,
    groups,
    move,
    betweenFamilies,
    betweenGroups,
    rest,
    total,
    groupLow,
    group: groups.slice(0, -1).map((choice) => groupOf[choice] as number),
    familyLow: Float64Array.from(order, (family) => lowOf[family] as number),
    family: order.map((family) => familyOf[groups[families[family] as number] as number] as number),
    groupFrom: order.map((family) => families[family] as number),
    groupUntil: order.map((family) => families[family + 1] as number),
    intoFamily: new Float64Array(order.length),
    intoGroup: new Float64Array(groups.length),
    heldFor: new Int32Array(groups.length).fill(-1),
    nearest: 0,
    found: 0,
  };
}

/** Holds what moves from a family into each family cost. */
function enterFamilies<Shape>(search: Search<Shape>, fromFamily: number): void {
  const { intoFamily, familyLow, family, betweenFamilies } = search;
  let least = Number.POSITIVE_INFINITY;
  for (let at = 0; at < intoFamily.length; at++) {
    const cost = betweenFamilies(fromFamily, family[at] as number);
    intoFamily[at] = cost;
    const sum = cost + (familyLow[at] as number);
    if (sum < least) {
      least = sum;
      search.nearest = at;
    }
  }
}

/** Writes down the least cost of what comes after a choice of that group, and where it begins. */
function findBest<Shape>(
  search: Search<Shape>,
  from: Step<Shape>,
  fromGroup: number,
  fromChoice: number,
  togo: Float64Array,
  next: Int32Array,
): void {
  const { shapes, groups, total, groupLow, familyLow, groupFrom, groupUntil, nearest } = search;
  const { group: kind, intoFamily, intoGroup, heldFor, betweenGroups, move, rest } = search;
  const shape = from.shapes[fromChoice] as Shape;
  const fromKind = from.groupOf[fromChoice] as number;
  // What was best for a shape like it is a good first guess, and so is the nearest family.
  let found = search.found;
  let best = (total[found] as number) + move(shape, shapes[found] as Shape);
  for (let turn = -1; turn < familyLow.length; turn++) {
    if (turn >= 0 && (familyLow[turn] as number) >= best) break;
    const at = turn < 0 ? nearest : turn;
    const entry = intoFamily[at] as number;
    if ((familyLow[at] as number) + entry >= best || turn === nearest) continue;
    const afterGroup = groupUntil[at] as number;
    for (let group = groupFrom[at] as number; group < afterGroup; group++) {
      const low = groupLow[group] as number;
      if (low + entry >= best) continue;
      if (heldFor[group] !== fromGroup) {
        heldFor[group] = fromGroup;
        intoGroup[group] = entry + betweenGroups(fromKind, kind[group] as number);
      }
      const sofar = intoGroup[group] as number;
      if (low + sofar >= best) continue;
      const end = groups[group + 1] as number;
      for (let choice = groups[group] as number; choice < end; choice++) {
        const sum = sofar + (total[choice] as number);
        if (sum >= best) continue;
        const whole = sum + rest(shape, shapes[choice] as Shape);
        if (whole < best) {
          best = whole;
          found = choice;
        }
      }
    }
  }
  search.found = found;
  togo[fromChoice] = best;
  next[fromChoice] = found;
}

/** The lowest value of each stretch. */
const lowestOf = (begins: Int32Array, values: Float64Array): Float64Array => {
  const low = new Float64Array(begins.length - 1).fill(Number.POSITIVE_INFINITY);
  for (let stretch = 0; stretch < low.length; stretch++) {
    const end = begins[stretch + 1] as number;
    for (let at = begins[stretch] as number; at < end; at++)
      low[stretch] = Math.min(low[stretch] as number, values[at] as number);
  }
  return low;
};
