/** A bar line as it was written: what it closes at its left, what it opens at its right. */
export interface BarSign {
  /** The sign at the right of the bar before it: '' (plain), '||', '|]', ':|' or ':|x3'. */
  readonly right: string;
  /** The sign at the left of the bar after it: '' or '|:'. */
  readonly left: string;
  /** Index behind it, times included. */
  readonly to: number;
}

const SIGN = /(:*)(\|+)(:+|\])?/y;
const TIMES = /(?: *[xX×] *(\d{1,4})| *(\d{1,4}) *[xX×])(?![^ |"])/y;
const ENDING = /( *)(\d{1,2}(?:[.,-]+\d{1,2})*)\.(?!\d)/y;
const WIDEST_RANGE = 16;

/**
 * The bar line that stands at an index of plain text; null where none does. `||:` closes with `||` and opens a
 * repeat, `:|:` and `:||:` close one and open the next; `:||` and `:|]` are `:|`.
 */
export const readSign = (plain: string, at: number): BarSign | null => {
  SIGN.lastIndex = at;
  const sign = SIGN.exec(plain);
  if (!sign) return null;
  const [, closing = '', lines = '', after = ''] = sign;
  const left = after.startsWith(':') ? '|:' : '';
  const to = at + sign[0].length;
  if (closing === '') {
    const right = after === ']' ? '|]' : lines.length > 1 ? '||' : '';
    return { right, left, to };
  }
  if (left !== '') return { right: ':|', left, to };
  TIMES.lastIndex = to;
  const times = TIMES.exec(plain);
  if (!times) return { right: ':|', left, to };
  return { right: `:|x${Number(times[1] ?? times[2])}`, left, to: to + times[0].length };
};

/** Numbers of an ending right after a bar line. */
export interface EndingNumbers {
  /** '1.' or '1.2.' */
  readonly ending: string;
  /** Index of the first figure. */
  readonly from: number;
  readonly to: number;
}

/** The numbers of an ending, as `1.`, `1.2.`, `1,2.` or `1-3.`, that stand at an index of plain text. */
export const readEnding = (plain: string, at: number): EndingNumbers | null => {
  ENDING.lastIndex = at;
  const match = ENDING.exec(plain);
  const numbers = match ? listNumbers(match[2] ?? '') : null;
  if (!match || !numbers) return null;
  const ending = numbers.map((number) => `${number}.`).join('');
  return { ending, from: at + (match[1] ?? '').length, to: at + match[0].length };
};

/** [1, 2, 3] for '1.2.3', '1,2,3' or '1-3'; null where a range is upside down or very wide. */
const listNumbers = (text: string): number[] | null => {
  const numbers: number[] = [];
  for (const part of text.split(/[.,]+/)) {
    const [from = 0, to = from, ...more] = part.split(/-+/).map(Number);
    if (more.length > 0 || to < from || to - from > WIDEST_RANGE) return null;
    for (let number = from; number <= to; number++) numbers.push(number);
  }
  return numbers;
};

/** '1.2.' gives [1, 2]; '' gives []. */
export const endingNumbers = (ending: string): number[] => (ending.match(/\d+/g) ?? []).map(Number);

/** How often a repeat is played in all: `:|` 2, `:|x3` 3; null where the sign is no repeat's end. */
export const repeatTimes = (right: string): number | null => {
  const match = /^:\|(?:x(\d+))?$/.exec(right);
  return match ? Number(match[1] ?? 2) : null;
};

/**
 * No bar stands between two signs with only blanks between them where the first closes and the second
 * goes on (`:| |:`, `|| |:`, `:| |2.`), or where a plain bar line is followed by `|:`. Between all others
 * stands an empty bar: `| |`, `| :|`, `|: |`.
 */
export const signsTouch = (first: BarSign, second: BarSign): boolean =>
  second.right === '' && first.left === '' && (first.right !== '' || second.left !== '');
