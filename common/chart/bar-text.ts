import { readChordSymbol } from '../theory/chord-symbol.ts';
import { quotedSpans } from './quoted-spans.ts';
import { plainText } from './text-line.ts';

interface Placed {
  /** Tidied: as it is printed, words in quotes with their quotes. */
  readonly text: string;
  /** Index of its first character in the text that was read. */
  readonly at: number;
  /** A blank stands before it. */
  readonly spaced: boolean;
}

/** A token that takes time. */
export type TimeToken = Placed &
  (
    | { readonly kind: 'chord' | 'unknown' | 'noChord'; readonly symbol: string; readonly pushed: boolean }
    /** `/G`: the same chord over another bass. */
    | { readonly kind: 'bass'; readonly bass: string; readonly pushed: boolean }
    | { readonly kind: 'slash'; readonly pulses: number }
    | { readonly kind: 'rest' }
    /** `%` the bar before, `%%` the bar two before. */
    | { readonly kind: 'repeat'; readonly barsBack: 1 | 2 }
  );

/** Words in quotes. Words that were left open go on to the bar's end. */
export type WordToken = Placed & { readonly kind: 'word'; readonly words: string; readonly closed: boolean };

export type BarToken = TimeToken | WordToken;

/** A bar's text as its tokens, nothing left out. */
export type BarTokens = readonly BarToken[];

/**
 * The tokens of a bar. Whatever is no known sign or chord is an `unknown` token that takes its time, so that
 * a typo never shifts what stands around it. Never throws.
 * Law, without bar lines in the text: `printBarText(readBarText(tidy)) === tidy` for `tidy = printBarText(readBarText(text))`.
 */
export const readBarText = (text: string): BarTokens => {
  const plain = plainText(text);
  const spans = plain.includes('"') ? quotedSpans(plain) : [];
  const closings = plain.includes('(') ? closingBrackets(plain) : NO_BRACKETS;
  const tokens: BarToken[] = [];
  let at = 0;
  let nextSpan = 0;
  while (at < plain.length) {
    const isSpaced = plain[at] === ' ' || tokens.length === 0;
    while (plain[at] === ' ') at++;
    if (at >= plain.length) break;
    const span = spans[nextSpan];
    if (span?.from === at) {
      const inside = text.slice(at + 1, span.closed ? span.to - 1 : span.to).replace(/[\r\n]/g, ' ');
      const words = span.closed ? inside : trimEnd(inside);
      const printed = span.closed ? `"${words}"` : `"${words}`;
      tokens.push({ kind: 'word', words, closed: span.closed, text: printed, at, spaced: isSpaced });
      at = span.to;
      nextSpan++;
    } else {
      const end = tokenEnd(plain, at, span?.from ?? plain.length, closings);
      const token = plain.slice(at, end).replace(/ +/g, ' ');
      tokens.push({ ...readToken(token), text: token, at, spaced: isSpaced });
      at = end;
    }
  }
  return tokens;
};

/** The bar's text tidied: one blank where there were some, nothing else changed. */
export const printBarText = (tokens: BarTokens): string => {
  let text = '';
  for (const token of tokens) text += text !== '' && token.spaced ? ` ${token.text}` : token.text;
  return text;
};

const trimEnd = (words: string): string => {
  let end = words.length;
  const plain = plainText(words);
  while (end > 0 && plain[end - 1] === ' ') end--;
  return words.slice(0, end);
};

/** A token ends at a blank or a quote; blanks in round brackets that are closed belong to it. */
const tokenEnd = (
  plain: string,
  from: number,
  limit: number,
  closings: ReadonlyMap<number, number>,
): number => {
  let at = from;
  while (at < limit && plain[at] !== ' ') at = (closings.get(at) ?? at) + 1;
  return at;
};

const NO_BRACKETS: ReadonlyMap<number, number> = new Map();

/** Where each round bracket that is closed is closed. A bracket doesn't reach over words in quotes. */
const closingBrackets = (plain: string): Map<number, number> => {
  const closings = new Map<number, number>();
  let open: number[] = [];
  for (let at = 0; at < plain.length; at++) {
    const character = plain[at];
    if (character === '"') open = [];
    else if (character === '(') open.push(at);
    else if (character === ')') {
      const opening = open.pop();
      if (opening !== undefined) closings.set(opening, at);
    }
  }
  return closings;
};

const NO_CHORD = /^n\.?c\.?$/i;
const BASS = /^\/([A-G](?:bb|##|[b#♭♯]|𝄫|𝄪)?)$/u;

type Unplaced<Token> = Token extends Placed ? Omit<Token, keyof Placed> : never;

const readToken = (token: string): Unplaced<TimeToken> => {
  if (/^\/+$/.test(token)) return { kind: 'slash', pulses: token.length };
  if (token === 'r') return { kind: 'rest' };
  if (token === '%') return { kind: 'repeat', barsBack: 1 };
  if (token === '%%') return { kind: 'repeat', barsBack: 2 };
  const pushed = token.length > 1 && token.startsWith('<');
  const symbol = pushed ? token.slice(1) : token;
  if (NO_CHORD.test(symbol)) return { kind: 'noChord', symbol, pushed };
  const bass = BASS.exec(symbol)?.[1];
  if (bass !== undefined) return { kind: 'bass', bass, pushed };
  return { kind: readChordSymbol(symbol) ? 'chord' : 'unknown', symbol, pushed };
};
