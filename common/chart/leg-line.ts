import type { RoadLine } from './chart.ts';
import { indexOutsideQuotes, quotedSpans } from './quoted-spans.ts';
import { type TextLine, tidyBlanks } from './text-line.ts';

const TIMES = /^(?:x\d+|\d+x|open|vamp)$/i;

/**
 * A line of the road map taken apart: `Solos: A B open "guitar, tenor"`; null without a colon, or where words
 * left open follow others in quotes. What the sections mean is not asked here. Words left open begin with the
 * quote.
 */
export const readLegLine = ({ raw, plain }: TextLine): Omit<RoadLine, 'id'> | null => {
  const colon = indexOutsideQuotes(plain, ':');
  if (colon === -1) return null;
  const rest = plain.slice(colon + 1);
  const spans = rest.includes('"') ? quotedSpans(rest) : [];
  let outside = '';
  let from = 0;
  let isOpen = false;
  const words: string[] = [];
  for (const span of spans) {
    outside += `${rest.slice(from, span.from)} `;
    from = span.to;
    words.push(raw.slice(colon + 2 + span.from, colon + 1 + (span.closed ? span.to - 1 : span.to)));
    isOpen ||= !span.closed;
  }
  outside += rest.slice(from);
  // Joined to those before, words left open could come to hold a bar line that reads as one.
  if (isOpen && words.length > 1) return null;
  const tokens = outside.split(' ').filter((token) => token !== '');
  const timesFrom = timesStart(tokens);
  const inQuotes = words.join(' ').trim();
  return {
    name: tidyBlanks(plain.slice(0, colon)),
    sections: tokens.slice(0, timesFrom).join(' '),
    times: tokens.slice(timesFrom).join(' '),
    words: isOpen ? `"${inQuotes}` : inQuotes,
  };
};

/** Index of the first of the times words that end the line. */
const timesStart = (tokens: readonly string[]): number => {
  let from = tokens.length;
  for (;;) {
    const [last = '', before = '', beforeThat = ''] = [tokens[from - 1], tokens[from - 2], tokens[from - 3]];
    const isBars = /^bars?$/i.test(last);
    const number = isBars ? before : last;
    const word = (isBars ? beforeThat : before).toLowerCase();
    if (TIMES.test(last)) from -= 1;
    else if (/^\d+$/.test(number) && word === 'trade') from -= isBars ? 3 : 2;
    else if (/^\d+$/.test(last) && before.toLowerCase() === 'x') from -= 2;
    else return from;
  }
};

/** The line as it is printed, without what sets it in. */
export const printLegLine = ({ name, sections, times, words }: Omit<RoadLine, 'id'>): string => {
  const inQuotes = words === '' ? '' : words.startsWith('"') ? words : `"${words.replaceAll('"', "'")}"`;
  return `${name}: ${[sections, times, inQuotes].filter((part) => part !== '').join(' ')}`.trimEnd();
};
