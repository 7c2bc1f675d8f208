/*
 * What became of the things in a list when somebody rewrote it. Pairs are [index before, index after].
 */
export type Pair = readonly [before: number, after: number];

/**
 * The longest row of equal things that comes in the same order in both lists (a longest common subsequence).
 * Example: of a b c d and a c d e it is a, c, d: [0, 0], [2, 1], [3, 2].
 */
export const commonPairs = (before: readonly string[], after: readonly string[]): Pair[] => {
  const pairs: Pair[] = [];
  let start = 0;
  while (start < before.length && start < after.length && before[start] === after[start]) {
    pairs.push([start, start]);
    start += 1;
  }
  let endBefore = before.length;
  let endAfter = after.length;
  const tail: Pair[] = [];
  while (endBefore > start && endAfter > start && before[endBefore - 1] === after[endAfter - 1]) {
    endBefore -= 1;
    endAfter -= 1;
    tail.push([endBefore, endAfter]);
  }
  pairs.push(...middlePairs(before.slice(start, endBefore), after.slice(start, endAfter), start));
  return [...pairs, ...tail.reverse()];
};

/** By dynamic programming over all suffixes: `best` holds the length of the longest row from (i, j) on. */
const middlePairs = (before: readonly string[], after: readonly string[], offset: number): Pair[] => {
  const width = after.length + 1;
  const best = new Uint16Array((before.length + 1) * width);
  const bestAt = (i: number, j: number) => best[i * width + j] ?? 0;
  for (let i = before.length - 1; i >= 0; i--) {
    for (let j = after.length - 1; j >= 0; j--) {
      best[i * width + j] =
        before[i] === after[j] ? bestAt(i + 1, j + 1) + 1 : Math.max(bestAt(i + 1, j), bestAt(i, j + 1));
    }
  }
  const pairs: Pair[] = [];
  let i = 0;
  let j = 0;
  while (i < before.length && j < after.length) {
    if (before[i] === after[j]) {
      pairs.push([i + offset, j + offset]);
      i += 1;
      j += 1;
    } else if (bestAt(i + 1, j) >= bestAt(i, j + 1)) i += 1;
    else j += 1;
  }
  return pairs;
};

/**
 * Pairs for as many things as possible: first the rows of equal things by the first key, then in the gaps by the
 * next, and so on; what then stands alone at the same place of a gap is the same thing rewritten.
 */
export const pairLists = <Item>(
  before: readonly Item[],
  after: readonly Item[],
  keys: readonly ((item: Item) => string)[],
): Pair[] => {
  const [key, ...weaker] = keys;
  if (!key) return before.slice(0, after.length).map((_, index) => [index, index]);
  const pairs = commonPairs(before.map(key), after.map(key));
  return pairs.concat(
    gapsBetween(pairs, before.length, after.length).flatMap(({ fromBefore, toBefore, fromAfter, toAfter }) =>
      pairLists(before.slice(fromBefore, toBefore), after.slice(fromAfter, toAfter), weaker).map(
        ([a, b]): Pair => [a + fromBefore, b + fromAfter],
      ),
    ),
  );
};

export interface Gap {
  readonly fromBefore: number;
  readonly toBefore: number;
  readonly fromAfter: number;
  readonly toAfter: number;
}

/** The stretches between pairs that are in order, ends excluded, where both lists hold something. */
export const gapsBetween = (pairs: readonly Pair[], before: number, after: number): Gap[] => {
  const gaps: Gap[] = [];
  let [lastBefore, lastAfter] = [-1, -1];
  for (const [a, b] of [...pairs, [before, after] as const]) {
    if (a > lastBefore + 1 && b > lastAfter + 1) {
      gaps.push({ fromBefore: lastBefore + 1, toBefore: a, fromAfter: lastAfter + 1, toAfter: b });
    }
    [lastBefore, lastAfter] = [a, b];
  }
  return gaps;
};

/**
 * The values of a longest row that rises, among numbers that are all different (null: no number): what may stay
 * where it is while the others move.
 */
export const risingValues = (values: readonly (number | null)[]): Set<number> => {
  const numbers = values.filter((value) => value !== null);
  const lengths: number[] = [];
  const previous: number[] = [];
  let last = -1;
  numbers.forEach((value, index) => {
    lengths[index] = 1;
    previous[index] = -1;
    for (let earlier = 0; earlier < index; earlier++) {
      const length = (lengths[earlier] ?? 0) + 1;
      if ((numbers[earlier] ?? 0) < value && length > (lengths[index] ?? 0)) {
        lengths[index] = length;
        previous[index] = earlier;
      }
    }
    if (last === -1 || (lengths[index] ?? 0) > (lengths[last] ?? 0)) last = index;
  });
  const rising = new Set<number>();
  for (let at = last; at >= 0; at = previous[at] ?? -1) rising.add(numbers[at] ?? 0);
  return rising;
};
