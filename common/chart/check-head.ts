import { readKey } from '../theory/key.ts';
import type { ChartHead, HeadWord } from './chart.ts';
import { type Found, spotKey } from './found.ts';
import { FASTEST_BPM, MOST_COUNT_BARS, readCountBars, readTempo, SLOWEST_BPM } from './head.ts';
import { metreDoubt } from './read-mark.ts';
import { readMetre } from './read-metre.ts';
import { plainText, tidyBlanks } from './text-line.ts';

/** Header values that can't be read. A value that is left blank is not asked about. */
export const checkHead = (head: ChartHead): Found[] => {
  const found: Found[] = [];
  const check = (word: HeadWord, reads: (value: string) => unknown, doubt: (value: string) => Doubted) => {
    const value = tidyBlanks(plainText(head[word] ?? ''));
    if (value !== '' && reads(value) === null) found.push({ at: spotKey('head', word), ...doubt(value) });
  };
  check('key', readKey, (value) => ({
    kind: 'unknown-key',
    words: `“${value}” is no key that is known; write a tonic and major, minor, blues, minor blues or a mode, such as “Eb blues”.`,
    ...optional(keyMeant(value)),
  }));
  check('time', readMetre, metreDoubt);
  check('tempo', readTempo, (value) => ({
    kind: 'bad-tempo',
    words: `“${value}” is no tempo; write the pulses a minute, ${SLOWEST_BPM} to ${FASTEST_BPM}.`,
    ...optional(/\d+/.exec(value)?.[0], (number) => readTempo(number) !== null),
  }));
  check('count', readCountBars, (value) => ({
    kind: 'bad-count',
    words: `“${value}” is no count-in; write how many bars are counted, 0 to ${MOST_COUNT_BARS}.`,
    ...optional(/\d+/.exec(value)?.[0], (number) => readCountBars(number) !== null),
  }));
  return found;
};

interface Doubted {
  readonly kind: string;
  readonly words: string;
  readonly suggestion?: string;
}

const optional = (suggestion: string | undefined, fits: (suggestion: string) => boolean = () => true) =>
  suggestion !== undefined && fits(suggestion) ? { suggestion } : {};

const keyMeant = (value: string): string | undefined =>
  [value.toLowerCase(), value.split(' ')[0] ?? '']
    .map((text) => text.replace(/^[a-g]/, (tonic) => tonic.toUpperCase()))
    .find((text) => readKey(text) !== null);
