import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { commonPairs, pairLists, risingValues } from '../../../common/document/match-lists.ts';

const letters = fc.array(fc.constantFrom('a', 'b', 'c', '%'), { maxLength: 9 });

/** The length of the longest common row, by trying out every subset. */
const longestByForce = (a: readonly string[], b: readonly string[]): number => {
  const [first, ...rest] = a;
  if (first === undefined) return 0;
  const at = b.indexOf(first);
  const without = longestByForce(rest, b);
  return at === -1 ? without : Math.max(without, 1 + longestByForce(rest, b.slice(at + 1)));
};

describe('matching lists', () => {
  it('finds the longest row of equal things in the same order', () => {
    fc.assert(
      fc.property(letters, letters, (a, b) => {
        const pairs = commonPairs(a, b);
        expect(pairs.length).toBe(longestByForce(a, b));
        for (const [i, j] of pairs) expect(a[i]).toBe(b[j]);
        const sorted = [...pairs].sort(([x], [y]) => x - y);
        expect(sorted.map(([, j]) => j)).toEqual(sorted.map(([, j]) => j).sort((x, y) => x - y));
      }),
      { numRuns: 300, seed: 3 },
    );
  });

  it('pairs what is left over at the same place', () => {
    const key = (text: string) => text;
    expect(pairLists(['a', 'x', 'b'], ['a', 'y', 'z', 'b'], [key]).sort()).toEqual([
      [0, 0],
      [1, 1],
      [2, 3],
    ]);
  });

  it('lets as many as possible stay where they are', () => {
    expect(risingValues([0, 4, 1, 2, null, 3])).toEqual(new Set([0, 1, 2, 3]));
    expect(risingValues([])).toEqual(new Set());
  });
});
