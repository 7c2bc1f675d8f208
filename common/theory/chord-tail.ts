import { readMajorSeventh, SEVENTH, takeFigure, takeMajor } from './chord-head.ts';
import { type ChordParts, sayOnce } from './chord-parts.ts';
import type { TextScanner } from './text-scanner.ts';

const SUS = /sus(?:pended)?(2\/?4(?!\d)|4\/?2(?!\d)|[b#]?[24](?!\d))?/iy;
const ADD = /add */iy;
const ADDED = /([b#+-]?) *(13|11|9|7|6|4|3|2)(?!\d)(?:th|rd|nd)?/y;
const OMIT = /(?:no|omit) *(root|13|11|9|7|5|3|1)(?!\d)(?:th|rd|st)?/iy;
const SHARP_FIFTH = /(?:\+|aug)(?!\d)/iy;
const ALTERATION = /([b#+-]) *(13|11|9|7|6|5|4)(?!\d)/y;
const SPELT_ALTERATION = /(aug|dim) *(11|9|5)(?!\d)/iy;
const BRACKETED = /(?:13|11|9|7|6|4|2)(?!\d)/y;
const AFTER_SLASH = /(?:13|11|9|6)(?!\d)/y;

/** The alterations and additions there are; a number that is not here (♭22, ♯13) is no chord's. */
const ALTERATIONS: ReadonlySet<string> = new Set('b5 #5 b9 #9 #11 #4 b13 b6 b7 #7'.split(' '));
const ADDITIONS: ReadonlySet<string> = new Set('2 3 4 6 9 11 13 b2 b6 b9 #9 #4 #11 b13 7 b7'.split(' '));

/**
 * Reads one part after quality and figure (a suspension, alteration, addition, omission), a round bracket of
 * such parts, or a part after a slash or comma; false where nothing of the kind stands here.
 */
export function readChordTail(text: TextScanner, parts: ChordParts): boolean {
  if (text.take(/\( */y)) return readBracket(text, parts);
  if (text.take(/[/,]/y)) return readItem(text, parts) || readSlashNumber(text, parts);
  return readItem(text, parts) || readLateFigure(text, parts);
}

function readBracket(text: TextScanner, parts: ChordParts): boolean {
  let separator = '';
  do {
    if (!readItem(text, parts) && !readBracketed(text, parts)) return false;
    separator = text.take(/ *[,/]? */y)?.[0].trim() ?? '';
  } while (!text.take(/\)/y));
  return separator === '';
}

/** A part that reads the same wherever it stands. */
function readItem(text: TextScanner, parts: ChordParts): boolean {
  const sus = text.take(SUS);
  if (sus !== null) return suspend(parts, (sus[1] ?? '4').replace('/', ''));
  if (text.take(ADD)) return readAdded(text, parts);
  const omitted = text.take(OMIT)?.[1];
  if (omitted !== undefined) return sayOnce(parts.omitted, [omitted.replace(/root/i, '1')]);
  if (text.take(SHARP_FIFTH)) return alter(parts, '#', '5');
  const altered = text.take(ALTERATION) ?? text.take(SPELT_ALTERATION);
  if (altered !== null) return alter(parts, altered[1], altered[2]);
  return parts.figure !== 0 && readAddedMajorSeventh(text, parts);
}

/** `4`, `2`, `b2`; `24` is two. */
function suspend(parts: ChordParts, said: string): boolean {
  return sayOnce(parts.sus, /^\d/.test(said) ? [...said] : [said]);
}

/** `add9`, `add#11`, `addmaj7`. */
function readAdded(text: TextScanner, parts: ChordParts): boolean {
  if (readAddedMajorSeventh(text, parts)) return true;
  const [, sign, number] = text.take(ADDED) ?? [];
  const degree = accidental(sign) + (number ?? '');
  return add(parts, degree === '7' ? 'b7' : degree === '#7' ? '7' : degree);
}

/**
 * A major seventh beside a sixth, a diminished seventh or a triad: `6(maj7)`, `°7(maj7)`. After the ninth and beyond of
 * a minor chord it says which seventh is meant: `m9(maj7)`.
 */
function readAddedMajorSeventh(text: TextScanner, parts: ChordParts): boolean {
  return text.attempt(() => {
    if (takeMajor(text) === undefined || text.take(/7(?!\d)/y) === null) return false;
    if (parts.quality !== 'minor' || parts.figure < 9 || parts.majorSeventh) return add(parts, '7');
    parts.majorSeventh = true;
    return true;
  });
}

/** In brackets: a number is added; `(7)` and `(maj9)` are the figure where none was said before. */
function readBracketed(text: TextScanner, parts: ChordParts): boolean {
  if (parts.figure === 0 && parts.quality !== 'power') {
    if (readMajorSeventh(text, parts) || takeFigure(text, parts, /7(?!\d)/y)) return true;
  }
  const number = text.take(BRACKETED)?.[0];
  return number !== undefined && add(parts, number === '7' ? 'b7' : number);
}

/** After a slash a number is added (`7/9`, `7/13`), a sixth only to a seventh. It is never a bass. */
function readSlashNumber(text: TextScanner, parts: ChordParts): boolean {
  const number = text.take(AFTER_SLASH)?.[0];
  return number !== undefined && (number !== '6' || parts.figure === 7) && add(parts, number);
}

/** `sus7`, `sus13`: the figure after the word. */
function readLateFigure(text: TextScanner, parts: ChordParts): boolean {
  return parts.figure === 0 && parts.sus.length > 0 && takeFigure(text, parts, SEVENTH);
}

function alter(parts: ChordParts, sign: string | undefined, number: string | undefined): boolean {
  const degree = accidental(sign) + (number ?? '');
  return ALTERATIONS.has(degree) && sayOnce(parts.altered, [degree]);
}

function add(parts: ChordParts, degree: string): boolean {
  return ADDITIONS.has(degree) && sayOnce(parts.added, [degree]);
}

const ACCIDENTALS: Readonly<Record<string, string>> = { '-': 'b', '+': '#', dim: 'b', aug: '#' };
const accidental = (sign = ''): string => ACCIDENTALS[sign.toLowerCase()] ?? sign;
