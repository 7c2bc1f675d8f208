import type { Mark, Reach } from './bar-music.ts';
import { nearMiss } from './near-miss.ts';
import { type Doubt, readMark } from './read-mark.ts';
import { plainText, tidyBlanks } from './text-line.ts';

/** Legs of a chart without a road map. */
export const DEFAULT_LEGS = ['Intro', 'Head', 'Solos', 'Head out', 'Outro', 'Ending', 'Coda', 'Tag'];

export interface WordRead {
  /** Without the reach. */
  readonly text: string;
  readonly mark?: Mark;
  readonly reach?: Reach;
  readonly doubt?: Doubt;
}

const PASS = /^(\d{1,2})(?:st|nd|rd|th) (?:x|time)(?: only)?$/i;
const LAST_PASS = /^last (?:x|time)(?: only)?$/i;

/**
 * What words over the bar mean: the mark they make, and where it reaches.
 * @param words as typed between the quotes
 * @param legs names of the legs, which words such as `solos: fill` can be limited to
 */
export const readWord = (words: string, legs: readonly string[]): WordRead => {
  const plain = plainText(words);
  const colon = plain.indexOf(':');
  const before = colon === -1 ? '' : tidyBlanks(plain.slice(0, colon));
  const reach = before === '' ? null : readReach(before, legs);
  if (before === '' || reach) {
    const from = colon === -1 || !reach ? 0 : colon + 1;
    const text = words.slice(from).trim();
    return { text, ...(reach ? { reach } : {}), ...withoutNote(tidyBlanks(plain.slice(from))) };
  }
  const text = words.trim();
  if (!('mark' in readMark(tidyBlanks(plain.slice(colon + 1))))) return { text };
  const meant = reachMeant(before, legs);
  if (meant === null) return { text };
  const doubt = `“${before}:” is neither a leg of the road map nor a pass such as “2nd x”, so this is read as a note to the players.`;
  return {
    text,
    doubt: {
      kind: 'unknown-reach',
      words: doubt,
      ...(meant === '' ? {} : { suggestion: `${meant}:${plain.slice(colon + 1)}` }),
    },
  };
};

const withoutNote = (words: string): { mark?: Mark; doubt?: Doubt } => {
  const read = readMark(words);
  return 'note' in read ? {} : read;
};

const readReach = (before: string, legs: readonly string[]): Reach | null => {
  const pass = Number(PASS.exec(before)?.[1] ?? 0);
  if (pass > 0) return { only: pass };
  if (LAST_PASS.test(before)) return { last: true };
  const leg =
    legs.find((name) => name === before) ?? legs.find((name) => name.toLowerCase() === before.toLowerCase());
  return leg === undefined ? null : { leg };
};

/** The reach that may have been meant, '' where one was but nobody knows which; null for a player's name and the like. */
const reachMeant = (before: string, legs: readonly string[]): string | null => {
  const pass = /^(?:x ?(\d{1,2})|(\d{1,2})(?:st|nd|rd|th)? ?(?:x|time|pass|chorus))(?: only)?$/i.exec(before);
  if (pass) return `${ordinal(Number(pass[1] ?? pass[2]))} x`;
  const leg = nearMiss(before, legs);
  if (leg !== null) return leg.toLowerCase();
  return DEFAULT_LEGS.some((name) => name.toLowerCase() === before.toLowerCase()) ? '' : null;
};

/** '1st', '2nd', '11th'. */
export const ordinal = (number: number): string => {
  const isTeen = number % 100 >= 11 && number % 100 <= 13;
  return `${number}${isTeen ? 'th' : (['th', 'st', 'nd', 'rd'][number % 10] ?? 'th')}`;
};
