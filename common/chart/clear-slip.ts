import { nearMiss } from './near-miss.ts';

const isVowel = (letter: string): boolean => 'aeiou'.includes(letter);
const squeeze = (text: string): string => text.toLowerCase().replace(/[^\p{L}\p{N}&]/gu, '');

/** In words of up to so many letters one wrong letter makes another word: fill and full, hold and cold. */
const SHORT = 5;

/** Words of so many letters can be two slips off and still be known. */
const LONG = 9;

/** Words that are commonly spelled so, though no slip of the hand would make them. */
const MISSPELLED: Readonly<Record<string, string>> = { tacit: 'tacet', breack: 'break' };

/**
 * The known word that typed words are clearly a slip of; null where they may well be words of their own. Without regard
 * to blanks, hyphens and capitals they are the same, or their letters stand in another order, or they are one letter
 * off (two in long words): in short words only one that is doubled, an s at the end, a doubled one single or a vowel left out inside; in
 * longer ones any but the first.
 * @example clearSlip('brake', ['break']) // 'break'; clearSlip('Bill', ['fill']) // null
 */
export const clearSlip = (typed: string, known: readonly string[]): string | null => {
  const word = squeeze(typed);
  if (word.length < 3 || word.length > 20) return null;
  const common = MISSPELLED[word];
  if (common !== undefined && known.includes(common)) return common;
  return (
    known.find((candidate) => squeeze(candidate) === word) ??
    known.find((candidate) => isSlip(word, squeeze(candidate))) ??
    null
  );
};

const isSlip = (word: string, target: string): boolean => {
  if (target.length < 4) return false;
  if (target.length >= LONG) return nearMiss(word, [target]) !== null;
  if (isReordered(word, target)) return true;
  if (word[0] !== target[0]) return false;
  const added = addedAt(word, target);
  if (added !== null) return target.length > SHORT || isDoubled(word, added) || isPlural(word, added);
  const missing = addedAt(target, word);
  if (missing !== null) {
    const isInside = missing < target.length - 1;
    return (
      target.length > SHORT || isDoubled(target, missing) || (isInside && isVowel(target[missing] ?? ''))
    );
  }
  return target.length > SHORT && isOneLetterOff(word, target);
};

/** Two neighbours swapped, or three letters behind the first in another order. */
const isReordered = (a: string, b: string): boolean => {
  if (a.length !== b.length || letters(a) !== letters(b)) return false;
  const wrong = [...a].flatMap((letter, at) => (letter === b[at] ? [] : [at]));
  const isSwapped = wrong.length === 2 && wrong[1] === (wrong[0] ?? 0) + 1;
  return isSwapped || (a[0] === b[0] && wrong.length <= 3);
};

const letters = (word: string): string => [...word].sort().join('');

/** Where `long` has one letter more than `short`; null where that is not all. */
const addedAt = (long: string, short: string): number | null => {
  if (long.length !== short.length + 1) return null;
  let at = 0;
  while (at < short.length && long[at] === short[at]) at++;
  return long.slice(at + 1) === short.slice(at) ? at : null;
};

const isDoubled = (word: string, at: number): boolean =>
  word[at] === word[at - 1] || word[at] === word[at + 1];
const isPlural = (word: string, at: number): boolean => at === word.length - 1 && word[at] === 's';

const isOneLetterOff = (a: string, b: string): boolean =>
  a.length === b.length && [...a].filter((letter, at) => letter !== b[at]).length === 1;
