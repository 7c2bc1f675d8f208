/** One line of a chart's text, or a part of one. `raw` and `plain` are equally long. */
export interface TextLine {
  /** As given, without its line end. */
  readonly raw: string;
  /** As it is read: see `plainText`. */
  readonly plain: string;
  /** From 1. */
  readonly line: number;
  /** Column of the first character, from 1, in UTF-16 units. */
  readonly column: number;
}

const QUOTES = /[\u201c-\u201f]/g;
const DASHES = /[\p{Dash_Punctuation}\u2212]/gu;
const BLANKS = /[\p{White_Space}\u200b\u2060\ufeff]/gu;
const ASCII = /^[ -~]*$/;

/**
 * The text with every blank a space, every curly quote `"` and every dash `-`. Accidentals and the signs of
 * chord symbols stay as typed: the readers of chords and keys know them.
 * Law: `plainText(text).length === text.length`, so that a place in one is a place in the other.
 */
export const plainText = (text: string): string => {
  if (ASCII.test(text)) return text;
  return text
    .replace(BLANKS, ' ')
    .replace(QUOTES, '"')
    .replace(DASHES, (dash) => (dash.length === 1 ? '-' : dash));
};

/** The words with one space between them and none around. */
export const tidyBlanks = (text: string): string => text.replace(/ +/g, ' ').trim();

/** The lines of a text. A byte order mark is no part of the text, but counts as a column. */
export const splitLines = (text: string): TextLine[] => {
  const hasMark = text.startsWith('\ufeff');
  const lines = (hasMark ? text.slice(1) : text).split(/\r\n|\r|\n/);
  return lines.map((raw, index) => ({
    raw,
    plain: plainText(raw),
    line: index + 1,
    column: index === 0 && hasMark ? 2 : 1,
  }));
};

/** A part of a line, without the blanks around it. */
export const cutLine = (line: TextLine, from: number, to = line.plain.length): TextLine => {
  let start = from;
  let end = Math.max(from, to);
  while (start < end && line.plain[start] === ' ') start++;
  while (end > start && line.plain[end - 1] === ' ') end--;
  return {
    raw: line.raw.slice(start, end),
    plain: line.plain.slice(start, end),
    line: line.line,
    column: line.column + start,
  };
};
