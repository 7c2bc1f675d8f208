import { readChordSymbol } from '../theory/chord-symbol.ts';
import type { Metre } from './bar-music.ts';
import { type BarToken, type BarTokens, printBarText, readBarText, type TimeToken } from './bar-text.ts';
import type { Found } from './found.ts';
import { isCounted, type SharedBar } from './share-bar.ts';

type BareProblem = Omit<Found, 'id' | 'at'>;

/** What is wrong with a token by itself; null where nothing is. @param isLost it needs a chord before it and has none */
export const tokenProblem = (token: TimeToken, isLost: boolean): BareProblem | null => {
  if (token.kind === 'repeat') {
    return {
      kind: 'repeat-not-alone',
      words: `“${token.text}” stands alone in its bar but for words; it takes its time here and repeats nothing.`,
    };
  }
  if (token.kind === 'unknown') return unknownToken(token.text, token.symbol, token.pushed);
  if (!isLost) return null;
  return token.kind === 'bass'
    ? { kind: 'bass-without-chord', words: `No chord stands before “${token.text}” to put over this bass.` }
    : { kind: 'slash-without-chord', words: `No chord stands before “${token.text}” to go on.` };
};

const unknownToken = (text: string, symbol: string, pushed: boolean): BareProblem => {
  const suggestion = suggestChord(symbol);
  const typed = suggestion === null ? null : `${pushed ? '<' : ''}${suggestion}`;
  return {
    kind: 'unknown-chord',
    words:
      typed === null
        ? `“${text}” is no chord symbol that is known. It keeps its time and stays as typed.`
        : `“${text}” is no chord symbol that is known: ${typed}?`,
    ...(typed === null ? {} : { suggestion: typed }),
  };
};

/** Slips that are often made, and what was meant. */
const REPAIRS: readonly (readonly [RegExp, string])[] = [
  [/^\/([a-g](?:b|#)?)$/, '/$1'],
  [/^([^/]+?)(\/{2,})$/, '$1 $2'],
  [/^([^/]+)\/$/, '$1 /'],
  [/^(\d{1,2})$/, '|$1.'],
  [/^([A-Ga-g][b#]?)[\^j](7?)/, '$1maj7'],
  [/^([A-Ga-g][b#]?)[h%]7?/, '$1m7b5'],
  [/^[-.]$/, '/'],
  [/^(r)(r+)$/, '$1 $2'],
  [/^R$/, 'r'],
  [/[,.;]+$/, ''],
];

/** What may have been meant by an unknown token: something that is understood; else null. */
const suggestChord = (symbol: string): string | null => {
  if (symbol.length > 40) return null;
  if (/^r{2,}$/.test(symbol)) return [...symbol].join(' ');
  if (/^\d{1,2}$/.test(symbol)) return `|${symbol}.`;
  const candidates = [symbol, ...REPAIRS.map(([slip, meant]) => symbol.replace(slip, meant))].flatMap(
    (text) => [text, capitalised(text)],
  );
  for (const candidate of candidates)
    if (candidate !== symbol && candidate !== '' && isUnderstood(candidate)) return candidate;
  return suggestSplit(symbol);
};

const capitalised = (text: string): string =>
  text
    .replace(/^[a-g]/, (root) => root.toUpperCase())
    .replace(/\/[a-g](?=b?#?$)/, (bass) => bass.toUpperCase());

const isUnderstood = (text: string): boolean =>
  readBarText(text).every(({ kind }) => kind !== 'unknown' && kind !== 'word');

/** Two chords that were written without a blank, or with a hyphen, between them. */
const suggestSplit = (symbol: string): string | null => {
  for (let at = 1; at < symbol.length; at++) {
    const rest = symbol.slice(at).replace(/^[-,;.]/, '');
    if (readChordSymbol(symbol.slice(0, at)) && readChordSymbol(rest))
      return `${symbol.slice(0, at)} ${rest}`;
  }
  return null;
};

/** What is wrong with the number of tokens in a bar, and the token to show it at; null where it fits. */
export const fitProblem = (
  { placed, fit }: SharedBar,
  tokens: BarTokens,
  metre: Metre,
): { readonly token: TimeToken; readonly problem: BareProblem } | null => {
  const timed = placed.map(({ token }) => token);
  const [first] = timed;
  const last = timed.at(-1);
  if (fit === 'exact' || !first || !last) return null;
  const pulses = `${metre.pulses} ${metre.pulses === 1 ? 'pulse' : 'pulses'}`;
  if (fit === 'tooFew') {
    const missing = metre.pulses - pulsesOf(timed);
    const more = (last.kind === 'rest' ? ' r' : ' /').repeat(missing);
    return {
      token: last,
      problem: {
        kind: 'too-few-pulses',
        words: `The bar has ${pulses} and only ${pulsesOf(timed)} are written; the last goes on.`,
        suggestion: printBarText(tokens) + more,
      },
    };
  }
  if (fit === 'uneven') {
    const lengths = placed.map(({ fromPulse, toPulse }) => toPulse - fromPulse);
    return {
      token: first,
      problem: {
        kind: 'uneven-share',
        words: `${timed.length} chords don't share ${pulses} evenly; read as ${lengths.join(' + ')}. Write slashes to say which are longer.`,
        suggestion: spellOut(tokens, placed),
      },
    };
  }
  const lost = placed.find(({ fromPulse, toPulse }) => fromPulse === toPulse)?.token ?? last;
  if (!isCounted(timed)) {
    return {
      token: lost,
      problem: {
        kind: 'too-many-chords',
        words: `${timed.length} chords don't go into ${pulses}; those from “${lost.text}” on have no place.`,
      },
    };
  }
  const excess = pulsesOf(timed) - metre.pulses;
  const isOneSlash =
    excess === 1 && first.kind !== 'slash' && first.kind !== 'rest' && timed.slice(1).every(isSlash);
  const dotted = metre.compound ? ` In ${metre.text} the pulse is the dotted quarter.` : '';
  return {
    token: lost,
    problem: {
      kind: 'too-many-pulses',
      words: isOneSlash
        ? 'One slash too many: the chord is the first pulse.'
        : `The bar has ${pulses} and ${pulsesOf(timed)} are written; what is too much has no place.${dotted}`,
      ...(isOneSlash ? { suggestion: withoutLastSlash(tokens) } : {}),
    },
  };
};

const isSlash = ({ kind }: BarToken): boolean => kind === 'slash';

const pulsesOf = (timed: readonly TimeToken[]): number =>
  timed.reduce((sum, token) => sum + (token.kind === 'slash' ? token.pulses : 1), 0);

const spellOut = (tokens: BarTokens, placed: SharedBar['placed']): string =>
  printBarText(
    tokens.map((token) => {
      const place = placed.find((candidate) => candidate.token === token);
      const slashes = place ? ' /'.repeat(Math.max(0, place.toPulse - place.fromPulse - 1)) : '';
      return { ...token, text: token.text + slashes };
    }),
  );

const withoutLastSlash = (tokens: BarTokens): string => {
  const at = tokens.findLastIndex(isSlash);
  return printBarText(
    tokens.flatMap((token, index) => {
      if (index !== at) return [token];
      return token.text.length > 1 ? [{ ...token, text: token.text.slice(1) }] : [];
    }),
  );
};

/** Of more parts nobody guesses where the words should have ended. */
const MOST_PARTS = 20;

/** @param words from the quote to the bar's end */
export const unclosedQuote = (words: string): BareProblem => {
  const parts = words
    .trim()
    .split(' ')
    .filter((part) => part !== '');
  const from =
    parts.length > MOST_PARTS
      ? -1
      : parts.findIndex((_, index) => index > 0 && isUnderstood(parts.slice(index).join(' ')));
  const suggestion =
    from === -1 ? `"${words.trim()}"` : `"${parts.slice(0, from).join(' ')}" ${parts.slice(from).join(' ')}`;
  return {
    kind: 'unclosed-quote',
    words: 'These words are not closed by a quote, so all to the end of the bar is taken for words.',
    suggestion,
  };
};
