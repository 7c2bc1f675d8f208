/**
 * The known word that a typed one looks like a slip of: without regard to blanks, hyphens and capitals the
 * same, or its letters in another order, or one letter wrong, two in long words. Null where none is near.
 */
export const nearMiss = (typed: string, known: readonly string[]): string | null => {
  const word = squeeze(typed);
  if (word.length < 3 || word.length > 20) return null;
  let best: string | null = null;
  let bestSlips = Number.POSITIVE_INFINITY;
  for (const candidate of known) {
    const target = squeeze(candidate);
    const slips = slipsBetween(word, target);
    if (slips <= slipsAllowed(target) && slips < bestSlips) {
      best = candidate;
      bestSlips = slips;
    }
  }
  return best;
};

const squeeze = (text: string): string => text.toLowerCase().replace(/[^\p{L}\p{N}&]/gu, '');

const slipsAllowed = (target: string): number => (target.length < 4 ? 0 : target.length < 7 ? 1 : 2);

const slipsBetween = (a: string, b: string): number => {
  if (a === b) return 0;
  const isAnagram = a.length === b.length && a[0] === b[0] && letters(a) === letters(b);
  return isAnagram ? 1 : editDistance(a, b);
};

const letters = (word: string): string => [...word].sort().join('');

/** Letters to put in, leave out, change or swap with their neighbour (optimal string alignment). */
const editDistance = (a: string, b: string): number => {
  let before: number[] = [];
  let row = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      let slips = Math.min(change, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1);
      const isSwap = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      if (isSwap) slips = Math.min(slips, (before[j - 2] ?? 0) + 1);
      next.push(slips);
    }
    before = row;
    row = next;
  }
  return row[b.length] ?? 0;
};
