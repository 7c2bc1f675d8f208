import type { GroupCosts } from './group-costs.ts';
import { type DividedCost, type MoveParts, NO_WAY } from './path-cost.ts';
import { cheapFirst, type Step, totalsOf } from './step.ts';

/** By choice of a step: the least cost of all that comes after it, and the choice that leads there. */
export interface Continued {
  readonly togo: Int32Array;
  readonly next: Int32Array;
}

/**
 * The best way on from each choice of `from` into `to`, where `after` is the least cost after each choice of `to`:
 * `togo(s) = min over t of move(s, t) + own(t) + after(t)`.
 *
 * The s are taken family by family, group by group. A first guess says what the dearest s of a family costs at most;
 * since no part of a move is negative, that leaves out the groups of t that are too far from the family. Of these the
 * dearest s of a group leaves out those that are too far from the group, and each s looks only at what is left. Nothing
 * cheaper is missed. A form over all shapes of a guitar asks for millions of sums, so they lie in flat arrays.
 */
export function goOn<Shape>(
  from: Step<Shape>,
  to: Step<Shape>,
  after: Int32Array,
  cost: DividedCost<Shape>,
  between: GroupCosts,
): Continued {
  const search = searchIn(from, to, totalsOf(to, after), cost, between);
  const { families } = from;
  for (let family = 0; family + 1 < families.length; family++) {
    guess(search, family);
    nearFamily(search, family);
    const end = families[family + 1] as number;
    for (let group = families[family] as number; group < end; group++) {
      nearGroup(search, group);
      findBest(search, group);
    }
  }
  return search.ways;
}

/** The groups of `to`, family by family, cheap families first, and in each family cheap groups first. */
interface Slots {
  /** By family in that order: its lowest total, what it is, its first slot; then how many slots there are. */
  readonly familyLow: Int32Array;
  readonly family: Int32Array;
  readonly first: Int32Array;
  /** By slot: the lowest total of its group, the number of the group, its first choice and the one after its last. */
  readonly low: Int32Array;
  readonly kind: Int32Array;
  readonly begin: Int32Array;
  readonly end: Int32Array;
  /** By choice, the number of its group. */
  readonly kindOf: Int32Array;
}

/** What may lie on somebody's way: which, and the least that a way through it costs by what is known. */
interface Near {
  length: number;
  readonly place: Int32Array;
  readonly least: Int32Array;
}

interface Search<Shape> {
  readonly from: Step<Shape>;
  readonly fromKind: Int32Array;
  readonly to: Step<Shape>;
  /** By choice of `to`, own cost and all that comes after. */
  readonly total: Int32Array;
  readonly slots: Slots;
  readonly betweenFamilies: MoveParts<Shape>['betweenFamilies'];
  readonly rest: MoveParts<Shape>['rest'];
  readonly between: GroupCosts;
  /** Slots near the family that is looked at, and the numbers of their groups. */
  readonly ofFamily: Near;
  readonly kindNear: Int32Array;
  /** Places in that list which are near the group that is looked at. */
  readonly ofGroup: Near;
  readonly ways: Continued;
  /** By number of a group of `from`, the choice of `to` that was best for a shape of such a group. */
  readonly found: Int32Array;
  /** The choice of `to` that was best for the shape before. */
  last: number;
  /** What is known to be enough for each shape of the family that is looked at. */
  enough: number;
}

function searchIn<Shape>(
  from: Step<Shape>,
  to: Step<Shape>,
  total: Int32Array,
  { parts: { betweenFamilies, rest } }: DividedCost<Shape>,
  between: GroupCosts,
): Search<Shape> {
  const toKind = between.numbersOf.get(to) as Int32Array;
  const slots = slotsOf(to, toKind, total);
  const count = toKind.length + 1;
  return {
    from,
    fromKind: between.numbersOf.get(from) as Int32Array,
    to,
    total,
    slots,
    betweenFamilies,
    rest,
    between,
    ofFamily: nothingNear(count),
    kindNear: new Int32Array(count),
    ofGroup: nothingNear(count),
    ways: { togo: new Int32Array(from.own.length), next: new Int32Array(from.own.length) },
    found: new Int32Array(between.count).fill(slots.begin[0] as number),
    last: slots.begin[0] as number,
    enough: NO_WAY,
  };
}

const nothingNear = (count: number): Near => ({
  length: 0,
  place: new Int32Array(count),
  least: new Int32Array(count),
});

function slotsOf(
  { groups, families, familyOf }: Step<unknown>,
  numbers: Int32Array,
  total: Int32Array,
): Slots {
  const groupLow = lowestOf(groups, total);
  const lows = lowestOf(families, groupLow);
  const order = cheapFirst(lows);
  const first = new Int32Array(order.length + 1);
  const groupAt = new Int32Array(groupLow.length);
  let slot = 0;
  order.forEach((place, at) => {
    const firstOfFamily = slot;
    first[at] = slot;
    const end = families[place + 1] as number;
    for (let group = families[place] as number; group < end; group++) {
      let here = slot++;
      for (; here > firstOfFamily; here--) {
        const before = groupAt[here - 1] as number;
        if ((groupLow[before] as number) <= (groupLow[group] as number)) break;
        groupAt[here] = before;
      }
      groupAt[here] = group;
    }
  });
  first[order.length] = slot;
  const low = new Int32Array(slot);
  const kind = new Int32Array(slot);
  const begin = new Int32Array(slot);
  const end = new Int32Array(slot);
  const kindOf = new Int32Array(total.length);
  for (let at = 0; at < slot; at++) {
    const group = groupAt[at] as number;
    low[at] = groupLow[group] as number;
    kind[at] = numbers[group] as number;
    begin[at] = groups[group] as number;
    end[at] = groups[group + 1] as number;
    for (let choice = begin[at] as number; choice < (end[at] as number); choice++)
      kindOf[choice] = kind[at] as number;
  }
  return {
    familyLow: order.map((place) => lows[place] as number),
    family: order.map((place) => familyOf[groups[families[place] as number] as number] as number),
    first,
    low,
    kind,
    begin,
    end,
    kindOf,
  };
}

/** The lowest value of each stretch. */
function lowestOf(begins: Int32Array, values: Int32Array): Int32Array {
  const low = new Int32Array(begins.length - 1);
  for (let stretch = 0; stretch < low.length; stretch++) {
    const end = begins[stretch + 1] as number;
    let lowest = NO_WAY;
    for (let at = begins[stretch] as number; at < end; at++) lowest = Math.min(lowest, values[at] as number);
    low[stretch] = lowest;
  }
  return low;
}

/**
 * Two good guesses for the shapes of a group: what was best for a shape of such a group in another family, and what was
 * best for the shape before. The dearest of what is so known is enough for all shapes of a family.
 */
function guess<Shape>(search: Search<Shape>, family: number): void {
  const { from, fromKind, to, ways, rest, found, last } = search;
  const { togo, next } = ways;
  const here = familyAt(from, family);
  const lastShape = to.shapes[last] as Shape;
  let dearest = 0;
  const lastGroup = from.families[family + 1] as number;
  for (let group = from.families[family] as number; group < lastGroup; group++) {
    const kind = fromKind[group] as number;
    const likely = found[kind] as number;
    const likelyShape = to.shapes[likely] as Shape;
    const toLikely = lowestTo(search, here, kind, likely);
    const toLast = last === likely ? NO_WAY : lowestTo(search, here, kind, last);
    const end = from.groups[group + 1] as number;
    for (let choice = from.groups[group] as number; choice < end; choice++) {
      const shape = from.shapes[choice] as Shape;
      let best = toLikely + rest(shape, likelyShape);
      let goal = likely;
      if (toLast < best) {
        const other = toLast + rest(shape, lastShape);
        if (other < best) {
          best = other;
          goal = last;
        }
      }
      togo[choice] = best;
      next[choice] = goal;
      if (best > dearest) dearest = best;
    }
  }
  search.enough = dearest;
}

/** What going on to a choice costs a family and group at least. */
function lowestTo<Shape>(search: Search<Shape>, family: number, kind: number, goal: number): number {
  const { to, total, slots, betweenFamilies, between } = search;
  return (
    (total[goal] as number) +
    betweenFamilies(family, to.familyOf[goal] as number) +
    (between.cost[kind * between.count + (slots.kindOf[goal] as number)] as number)
  );
}

const familyAt = ({ familyOf, groups, families }: Step<unknown>, family: number): number =>
  familyOf[groups[families[family] as number] as number] as number;

/** Writes down the slots that are cheaper than `enough` as far as the family tells. */
function nearFamily<Shape>(search: Search<Shape>, family: number): void {
  const { from, slots, betweenFamilies, ofFamily, kindNear, enough } = search;
  const { familyLow, family: families, first, low, kind } = slots;
  const { place, least } = ofFamily;
  const here = familyAt(from, family);
  let length = 0;
  for (let at = 0; at < familyLow.length; at++) {
    const lowest = familyLow[at] as number;
    if (lowest >= enough) break;
    const entry = betweenFamilies(here, families[at] as number);
    if (lowest + entry >= enough) continue;
    const end = first[at + 1] as number;
    for (let slot = first[at] as number; slot < end; slot++) {
      const sum = (low[slot] as number) + entry;
      if (sum >= enough) break;
      place[length] = slot;
      least[length] = sum;
      kindNear[length] = kind[slot] as number;
      length++;
    }
  }
  ofFamily.length = length;
}

/** Of these writes down those that are cheaper than what is enough for each shape of a group, as far as the group tells. */
function nearGroup<Shape>(search: Search<Shape>, group: number): void {
  const { from, fromKind, ways, between, ofFamily, kindNear, ofGroup } = search;
  const { least } = ofFamily;
  const { place, least: whole } = ofGroup;
  const { cost } = between;
  const row = (fromKind[group] as number) * between.count;
  let enough = 0;
  const end = from.groups[group + 1] as number;
  for (let choice = from.groups[group] as number; choice < end; choice++)
    enough = Math.max(enough, ways.togo[choice] as number);
  let length = 0;
  const count = ofFamily.length;
  for (let at = 0; at < count; at++) {
    const sum = (least[at] as number) + (cost[row + (kindNear[at] as number)] as number);
    place[length] = at;
    whole[length] = sum;
    // Adds 1 where the sum is less: the processor cannot guess which are, and a branch would cost more than the sum.
    length += (sum - enough) >>> 31;
  }
  ofGroup.length = length;
}

/** Writes down the best way on from each choice of a group. */
function findBest<Shape>(search: Search<Shape>, group: number): void {
  const { from, to, total, slots, rest, ofFamily, ofGroup, ways } = search;
  const { low, begin, end } = slots;
  const { place, least } = ofGroup;
  const count = ofGroup.length;
  const lastChoice = from.groups[group + 1] as number;
  for (let choice = from.groups[group] as number; choice < lastChoice; choice++) {
    const shape = from.shapes[choice] as Shape;
    let best = ways.togo[choice] as number;
    let found = ways.next[choice] as number;
    for (let at = 0; at < count; at++) {
      const lowest = least[at] as number;
      if (lowest >= best) continue;
      const slot = ofFamily.place[place[at] as number] as number;
      const sofar = lowest - (low[slot] as number);
      const after = end[slot] as number;
      for (let goal = begin[slot] as number; goal < after; goal++) {
        const sum = sofar + (total[goal] as number);
        if (sum >= best) continue;
        const whole = sum + rest(shape, to.shapes[goal] as Shape);
        if (whole >= best) continue;
        best = whole;
        found = goal;
      }
    }
    ways.togo[choice] = best;
    ways.next[choice] = found;
  }
  search.last = ways.next[lastChoice - 1] as number;
  search.found[search.fromKind[group] as number] = search.last;
}
