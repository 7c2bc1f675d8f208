import { readKey } from '../theory/key.ts';
import type { Mark } from './bar-music.ts';
import { clearSlip } from './clear-slip.ts';
import { FASTEST_BPM, readTempo, SLOWEST_BPM } from './head.ts';
import { nearMiss } from './near-miss.ts';
import { readCounts } from './read-counts.ts';
import { readMetre } from './read-metre.ts';

/** Why words that look as if they should act don't. */
export interface Doubt {
  readonly kind: string;
  readonly words: string;
  /** The words that would act, without quotes. */
  readonly suggestion?: string;
}

export type MarkRead =
  | { readonly mark: Mark }
  | { readonly doubt: Doubt }
  /** Words for the players. */
  | { readonly note: true };

const SIMPLE: Readonly<Record<string, Mark>> = {
  'stop-time': { kind: 'stopTime' },
  fill: { kind: 'fill' },
  hold: { kind: 'hold' },
  short: { kind: 'short' },
  'let ring': { kind: 'letRing' },
  'on cue': { kind: 'onCue' },
  rit: { kind: 'rit' },
  accel: { kind: 'accel' },
  'a tempo': { kind: 'aTempo' },
  'pick-up': { kind: 'pickUp' },
  segno: { kind: 'segno' },
  'to coda': { kind: 'toCoda' },
};

/** Feels that may change inside a tune. */
const FEELS = [
  'swing',
  'straight 8ths',
  'straight 16ths',
  'shuffle',
  'bossa',
  'latin',
  'funk',
  'ballad',
  'waltz',
  'in 2',
  'in 4',
  'half-time',
  'double-time',
];
const DYNAMICS = ['ppp', 'pp', 'p', 'mp', 'mf', 'f', 'ff', 'fff', 'cresc', 'dim'];
const WITH_ARGUMENT = ['break', 'hits', 'kicks', 'key', 'tempo', 'tacet'];
/** `fine` ends al Fine in the road map; nothing happens at the bar itself. */
const PLAIN_WORDS = ['fine', 'coda'];
const MOST_BARS = 64;

/** What words over the bar do. @param typed plain, blanks tidied, without quotes and reach */
export const readMark = (typed: string): MarkRead => {
  const words = typed.toLowerCase();
  const bare = words.replace(/^(rit|accel|cresc|dim)\.$/, '$1');
  const simple = Object.hasOwn(SIMPLE, bare) ? SIMPLE[bare] : undefined;
  if (simple) return { mark: simple };
  if (FEELS.includes(bare)) return { mark: { kind: 'feel', feel: bare } };
  if (DYNAMICS.includes(bare)) return { mark: { kind: 'dynamic', sign: bare } };
  if (PLAIN_WORDS.includes(bare)) return { note: true };
  if (/^\d+ ?\/ ?\d+( ?\(.*\))?$/.test(words)) return readMetreWord(typed);
  const [head = '', ...rest] = typed.split(' ');
  return readWithArgument(head.toLowerCase(), rest.join(' ')) ?? readSlip(typed);
};

const readMetreWord = (typed: string): MarkRead => {
  const metre = readMetre(typed);
  return metre ? { mark: { kind: 'metre', metre } } : { doubt: metreDoubt(typed) };
};

/** Why a metre can't be read. */
export const metreDoubt = (typed: string): Doubt => {
  const [, upper = '', groups = ''] = /^(\d+) ?\/ ?\d+ ?\(([\d +]+)\)$/.exec(typed) ?? [];
  const sum = groups.split('+').reduce((total, group) => total + Number(group), 0);
  const ungrouped = typed.replace(/ ?\(.*$/, '');
  const isWithoutGroups = readMetre(ungrouped) !== null;
  return {
    kind: 'bad-metre',
    words:
      isWithoutGroups && groups !== ''
        ? `The groups ${groups} make ${sum}, not ${upper}.`
        : `“${typed}” is no metre; write one such as 4/4, 6/8 or 5/4 (3+2).`,
    ...(isWithoutGroups && ungrouped !== typed ? { suggestion: ungrouped } : {}),
  };
};

/** Null where these are no words with an argument. */
const readWithArgument = (word: string, argument: string): MarkRead | null => {
  const [, barsText] = /^(\d{1,4})(?: bars?)?$/i.exec(argument) ?? [];
  switch (word) {
    case 'break':
    case 'tacet': {
      if (argument !== '' && barsText === undefined) return null;
      const bars = Number(barsText ?? 1);
      if (bars >= 1 && bars <= MOST_BARS) return { mark: { kind: word, bars } };
      const doubt = `“${word} ${argument}”: a ${word} lasts 1 to ${MOST_BARS} bars.`;
      return { doubt: { kind: 'bars-out-of-range', words: doubt, suggestion: word } };
    }
    case 'hits':
    case 'kicks': {
      const counts = readCounts(argument);
      if (counts !== null) return { mark: { kind: word, counts } };
      if (/\p{L}{2}/u.test(argument)) return null;
      return {
        doubt: {
          kind: 'bad-counts',
          words: `“${word}” needs the counts that are played, such as “${word} 1 2& 4”.`,
          suggestion: `${word} 1 2& 4`,
        },
      };
    }
    case 'key':
      if (argument !== '' && readKey(argument)) return { mark: { kind: 'key', key: argument } };
      return /^([a-h][b#♭♯]?(m|-| |$)|$)/iu.test(argument) ? { doubt: keyDoubt(argument) } : null;
    case 'tempo': {
      const bpm = readTempo(argument);
      if (bpm !== null) return { mark: { kind: 'tempo', bpm } };
      if (!/^\d/.test(argument)) return null;
      const words = `A tempo is a number of pulses a minute from ${SLOWEST_BPM} to ${FASTEST_BPM}, such as “tempo 132”.`;
      return { doubt: { kind: 'bad-tempo', words } };
    }
    default:
      return null;
  }
};

const keyDoubt = (typed: string): Doubt => {
  const capital = typed.replace(/^[a-g]/, (tonic) => tonic.toUpperCase());
  return {
    kind: 'unknown-key',
    words: `“key ${typed}” names no key that is known; write a tonic such as G, or Eb minor.`,
    ...(readKey(capital) ? { suggestion: `key ${capital}` } : {}),
  };
};

const KNOWN = [...Object.keys(SIMPLE), ...FEELS, ...WITH_ARGUMENT.filter((word) => word !== 'key')];

/** What is clearly a slip, or nearly a word with its figure, is asked about; all else is for the players. */
const readSlip = (typed: string): MarkRead => {
  const whole = clearSlip(typed, KNOWN);
  const split = /^(\p{L}+)[ -]?(\d.*)$/u.exec(typed);
  const word = split ? (nearMiss(split[1] ?? '', WITH_ARGUMENT) ?? shortSlip(split[1] ?? '')) : null;
  const meant = word && split ? `${word} ${split[2]}` : whole;
  if (meant === null || meant === typed.toLowerCase()) return { note: true };
  if ('note' in readMark(meant)) return { note: true };
  return { doubt: { kind: 'near-miss', words: `“${typed}”: ${meant}?`, suggestion: meant } };
};

const shortSlip = (word: string): string | null =>
  word.toLowerCase() === 'hit' ? 'hits' : word.toLowerCase() === 'kick' ? 'kicks' : null;
