/** Words in quotes inside a line. */
export interface QuotedSpan {
  /** Index of the opening quote. */
  readonly from: number;
  /** Index behind the closing quote; where there is none, behind the last character of the words. */
  readonly to: number;
  readonly closed: boolean;
}

/**
 * Where words stand in quotes, in plain text (see `plainText`).
 *
 * Words may hold a bar line, but a forgotten quote must not swallow the bars behind it: beyond a bar line only
 * a quote that looks like a closing one, with no blank or bar line before it, closes the words. Otherwise they were left open
 * and end before the bar line.
 * Example: in `"a | b" C` the words are `a | b`; in `"a C | "b" D` they are `a C` (left open) and `b`.
 */
export const quotedSpans = (plain: string): QuotedSpan[] => {
  const spans: QuotedSpan[] = [];
  let at = plain.indexOf('"');
  let barLine = plain.indexOf('|', at + 1);
  while (at !== -1) {
    const close = plain.indexOf('"', at + 1);
    if (barLine !== -1 && barLine <= at) barLine = plain.indexOf('|', at + 1);
    const isClosed =
      close !== -1 && (barLine === -1 || close < barLine || !/[ |]/.test(plain.charAt(close - 1)));
    const to = isClosed ? close + 1 : barLine === -1 ? plain.length : signStart(plain, at + 1, barLine);
    spans.push({ from: at, to, closed: isClosed });
    at = plain.indexOf('"', to);
  }
  return spans;
};

/** Where the sign begins that this bar line is part of: `:|` begins with its dots. */
const signStart = (plain: string, from: number, barLine: number): number => {
  let start = barLine;
  while (start > from && plain[start - 1] === ':') start -= 1;
  return start;
};

/** Index of the first such character outside quotes, −1 where there is none. */
export const indexOutsideQuotes = (plain: string, character: string): number => {
  const spans = plain.includes('"') ? quotedSpans(plain) : [];
  let at = plain.indexOf(character);
  for (const span of spans) {
    if (at !== -1 && at >= span.from && at < span.to) at = plain.indexOf(character, span.to);
  }
  return at;
};
