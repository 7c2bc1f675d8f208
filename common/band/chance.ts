/**
 * A number from 0 up to 1 that looks like chance and is always the same for the same arguments: a seed and whole
 * numbers that say what it is for (bar, part …). The bits are mixed as in MurmurHash3's finaliser (Appleby, public
 * domain; from memory).
 */
export const chance = (seed: number, ...what: readonly number[]): number => {
  let hash = seed | 0;
  for (const number of what) {
    hash = Math.imul(hash ^ (number | 0), 0x85ebca6b);
    hash ^= hash >>> 13;
    hash = Math.imul(hash, 0xc2b2ae35);
    hash ^= hash >>> 16;
  }
  return (hash >>> 0) / 0x100000000;
};

/** One of a list that is not empty, by a number from 0 up to 1. */
export const pick = <Item>(items: readonly Item[], at: number): Item =>
  items[Math.min(items.length - 1, Math.floor(at * items.length))] as Item;
