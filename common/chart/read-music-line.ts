import { type BarSign, readEnding, readSign, signsTouch } from './bar-signs.ts';
import { printBarText, readBarText } from './bar-text.ts';
import type { DraftBar, Spot } from './draft-chart.ts';
import { quotedSpans } from './quoted-spans.ts';
import type { TextLine } from './text-line.ts';

/** Signs at the end of a line that belong to the bar after it. */
export interface Pending {
  readonly left: string;
  readonly leftSpot?: Spot;
  readonly ending: string;
  readonly endingSpot?: Spot;
}

export const NOTHING_PENDING: Pending = { left: '', ending: '' };

/**
 * Reads a line of music and adds its bars to those of the section; gives what the line leaves to the next one.
 * A missing first or last bar line is supplied. A closing sign that begins a line belongs to the bar before it.
 */
export const readMusicLine = (line: TextLine, bars: DraftBar[], before: Pending): Pending => {
  const { plain } = line;
  const barsBefore = bars.length;
  const spotAt = (index: number): Spot => ({ line: line.line, column: line.column + index });
  let pending = before;
  let isTaken = false;
  let lastSign: BarSign | null = null;
  let from = 0;

  const takeEnding = (at: number) => {
    const numbers = readEnding(plain, at);
    if (!numbers) return at;
    pending = { ...pending, ending: pending.ending + numbers.ending, endingSpot: spotAt(numbers.from) };
    isTaken = true;
    return numbers.to;
  };
  const addBar = (to: number, right: string) => {
    const tokens = readBarText(line.raw.slice(from, to));
    const first = tokens[0]?.at ?? 0;
    const bar: DraftBar = {
      text: printBarText(tokens),
      left: pending.left,
      right,
      ending: pending.ending,
      lineEnd: false,
      spots: {
        tokens: tokens.map(({ at }) => spotAt(from + at)),
        bar: tokens.length > 0 ? spotAt(from + first) : spotAt(Math.min(from, Math.max(0, plain.length - 1))),
        right: spotAt(to),
      },
    };
    if (pending.leftSpot) bar.spots.left = pending.leftSpot;
    if (pending.endingSpot) bar.spots.ending = pending.endingSpot;
    bars.push(bar);
    pending = NOTHING_PENDING;
    isTaken = true;
  };
  const takeSign = (sign: BarSign, at: number) => {
    const isBlank = plain.slice(from, at).trim() === '';
    const previous = bars.at(-1);
    if (!isBlank) addBar(at, sign.right);
    else if (lastSign) {
      if (!signsTouch(lastSign, sign)) addBar(at, sign.right);
    } else if (sign.right !== '' && previous?.right === '') {
      previous.right = sign.right;
      previous.spots.right = spotAt(at);
      isTaken = true;
    } else if (sign.right.startsWith(':|')) addBar(at, sign.right);
    if (sign.left !== '') {
      pending = { ...pending, left: sign.left, leftSpot: spotAt(plain.indexOf('|', at)) };
      isTaken = true;
    }
    lastSign = sign;
    from = takeEnding(sign.to);
  };

  from = takeEnding(0);
  const spans = plain.includes('"') ? quotedSpans(plain) : [];
  let nextSpan = 0;
  let at = from;
  while (at < plain.length) {
    const span = spans[nextSpan];
    if (span && at >= span.from) {
      at = span.to;
      nextSpan++;
      continue;
    }
    const character = plain[at];
    const sign = character === '|' || character === ':' ? readSign(plain, at) : null;
    if (!sign) at += character === ':' ? colonsFrom(plain, at) : 1;
    else {
      takeSign(sign, at);
      at = from;
    }
  }
  const isRestBlank = plain.slice(from).trim() === '';
  if (!isRestBlank) addBar(plain.length, '');
  else if (!isTaken) {
    // A lone bar line: the line must not vanish.
    from = 0;
    addBar(0, lastBarSign(lastSign));
  }
  const last = bars.at(-1);
  if (last && bars.length > barsBefore) last.lineEnd = true;
  return pending;
};

/** How many colons stand there: where the first begins no sign, the others don't either. */
const colonsFrom = (plain: string, at: number): number => {
  let end = at;
  while (plain[end] === ':') end++;
  return end - at;
};

const lastBarSign = (sign: BarSign | null): string => sign?.right ?? '';
