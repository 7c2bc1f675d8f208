import type { Metre } from './bar-music.ts';

/** A count the trade's way: the number of a pulse, and which part of it. */
interface Count {
  readonly pulse: number;
  readonly part: '' | 'e' | '&' | 'a';
}

const SIMPLE_PARTS = { '': 0, e: 0.25, '&': 0.5, a: 0.75 };
/** A dotted quarter is counted `1 & a`. */
const COMPOUND_PARTS = { '': 0, e: Number.NaN, '&': 1 / 3, a: 2 / 3 };

/**
 * Counts such as `1 2& 4a` in one spelling: `1 e & a` gives '1 1e 1& 1a'. Null where something else stands
 * among them.
 */
export const readCounts = (text: string): string | null => {
  const counts: string[] = [];
  let pulse = '';
  for (const token of text.replace(/\d+/g, ' $&').split(/[ ,]+/)) {
    if (token === '') continue;
    const match = /^(\d{1,2})?([e&a])?$/i.exec(token);
    pulse = match?.[1] ?? pulse;
    if (!match || pulse === '') return null;
    counts.push(`${Number(pulse)}${(match[2] ?? '').toLowerCase()}`);
  }
  return counts.length > 0 ? counts.join(' ') : null;
};

/** Where counts in the spelling of `readCounts` lie in a bar, in pulses from 0; null where one has no place or they go back. */
export const countPulses = (counts: string, metre: Metre): number[] | null => {
  const places = counts.split(' ').map((count) => placeOf(parseCount(count), metre));
  const rises = places.every((place, index) => place > (places[index - 1] ?? -1));
  return rises ? places : null;
};

const parseCount = (count: string): Count => {
  const part = count.at(-1);
  return {
    pulse: Number.parseInt(count, 10),
    part: part === 'e' || part === '&' || part === 'a' ? part : '',
  };
};

/** NaN where the bar has no such count. */
const placeOf = ({ pulse, part }: Count, metre: Metre): number =>
  pulse >= 1 && pulse <= metre.pulses
    ? pulse - 1 + (metre.compound ? COMPOUND_PARTS : SIMPLE_PARTS)[part]
    : Number.NaN;
