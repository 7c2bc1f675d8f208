import { generateKeyBetween, generateNKeysBetween } from 'fractional-indexing';

/** n keys in order, for things that are written all at once into an empty place. */
export const firstOrderKeys = (n: number): string[] => generateNKeysBetween(null, null, n);

/**
 * n keys in order between two neighbours (null: no neighbour on that side). They share the letters of `blockId`
 * in front, so two blocks put into one place by two people at once stand one after the other and never mix.
 * Both neighbours must be valid keys, `before` smaller than `after`; see `canGoBetween`.
 * @param blockId an id made for this block alone
 */
export const blockOrderKeys = (
  before: string | null,
  after: string | null,
  n: number,
  blockId: string,
): string[] => {
  let start = generateKeyBetween(before, after);
  // Letters put behind a key that `after` begins with could lead beyond `after`.
  while (after?.startsWith(start)) start = generateKeyBetween(before, start);
  const letters = blockId.replace(/[^0-9A-Za-z]/g, '');
  // The length in front: no block's letters begin with all the letters of another.
  const prefix = start + DIGITS.charAt(Math.min(letters.length, 61)) + letters;
  const width = Math.ceil(Math.log(n + 2) / Math.log(62));
  return Array.from({ length: n }, (_, index) => `${prefix}${digitsOf(index + 1, width)}V`);
};

/** Whether keys can be made between these two: both well formed and in order. */
export const canGoBetween = (before: string | null, after: string | null): boolean =>
  (before === null || isOrderKey(before)) &&
  (after === null || isOrderKey(after)) &&
  (before === null || after === null || before < after);

const DIGITS = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz';

const digitsOf = (value: number, width: number): string => {
  let digits = '';
  for (let rest = value; digits.length < width; rest = Math.floor(rest / 62)) {
    digits = DIGITS.charAt(rest % 62) + digits;
  }
  return digits;
};

/** The form of fractional-indexing's keys: a letter that says how many digits the whole part has, the digits, a fraction without trailing 0. */
export const isOrderKey = (key: string): boolean => {
  if (!/^[A-Za-z][0-9A-Za-z]+$/.test(key)) return false;
  const head = key.charCodeAt(0);
  const wholeLength = head >= 97 ? head - 97 + 2 : 90 - head + 2;
  if (key.length < wholeLength) return false;
  if (key === `A${'0'.repeat(26)}`) return false;
  return key.length === wholeLength || !key.endsWith('0');
};
