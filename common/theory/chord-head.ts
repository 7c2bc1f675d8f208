import type { ChordParts } from './chord-parts.ts';
import type { TextScanner } from './text-scanner.ts';

const HALF_DIMINISHED = /ø|half-?dim(?:inished)?/iy;
const DIMINISHED = /dim(?:inished)?/iy;
const DIMINISHED_SIGN = /°|o(?!mit)/y;
const AUGMENTED = /\+|aug(?:mented)?/iy;
const MINOR = /minor|min(?!o\d)|mi/iy;
const MINOR_SIGN = /m|-/y;
const DOMINANT = /dom(?:inant)?/iy;
const MAJOR = /major|maj|ma(?!dd)/iy;
const MAJOR_SIGN = /M|Δ/y;
const ALTERED = /alt(?:ered)?\.?/iy;
const PLAIN_FIGURE = /(?:6\/?9|13|11|9|7|6|5|4|2)(?!\d)/y;
const SIXTH = /6(?:\/?9)?(?!\d)/y;
const DIGIT = /\d/y;

/** Reads a figure that has a seventh, 7 to 13. */
export const SEVENTH = /(?:13|11|9|7)(?!\d)/y;

/** Reads the quality and the main figure that follow the root; false where they contradict each other. */
export function readChordHead(text: TextScanner, parts: ChordParts): boolean {
  if (readAltered(text, parts)) return true;
  if (text.take(DOMINANT)) return takeFigure(text, parts, SEVENTH);
  if (text.take(HALF_DIMINISHED)) {
    parts.quality = 'half-diminished';
    if (!takeFigure(text, parts, SEVENTH)) parts.figure = 7;
    return !text.sees(DIGIT);
  }
  // `maj` is looked for before `m`, `min` before `M`: words go before letters.
  if (text.take(MAJOR)) return readMajor(text, parts, false);
  if (text.take(MINOR) ?? text.take(MINOR_SIGN)) parts.quality = 'minor';
  else if (text.take(DIMINISHED) ?? text.take(DIMINISHED_SIGN)) parts.quality = 'diminished';
  else if (text.take(AUGMENTED)) parts.quality = 'augmented';
  else {
    const sign = text.take(MAJOR_SIGN)?.[0];
    return sign === undefined ? readPlainFigure(text, parts) : readMajor(text, parts, sign === 'Δ');
  }
  return readMajorSeventh(text, parts) || readQualityFigure(text, parts);
}

/** Steps over `maj`, `M` or a triangle; answers what it was. */
export const takeMajor = (text: TextScanner): string | undefined =>
  (text.take(MAJOR) ?? text.take(MAJOR_SIGN))?.[0];

export function takeFigure(text: TextScanner, parts: ChordParts, pattern: RegExp): boolean {
  const found = text.take(pattern);
  if (found === null) return false;
  parts.figure = Number(found[0].replace('/', '')) as ChordParts['figure'];
  return true;
}

/** After another quality, or in brackets: `maj7`, `/M9`, `△` – the seventh is major. */
export function readMajorSeventh(text: TextScanner, parts: ChordParts): boolean {
  return text.attempt(() => {
    text.take(/\//y);
    const sign = takeMajor(text);
    if (sign === undefined) return false;
    parts.majorSeventh = takeFigure(text, parts, SEVENTH) || takeTriangle(text, parts, sign);
    return parts.majorSeventh;
  });
}

/** A triangle without a figure is the seventh itself. */
function takeTriangle(text: TextScanner, parts: ChordParts, sign: string): boolean {
  if (sign !== 'Δ' || text.sees(DIGIT)) return false;
  parts.figure = 7;
  return true;
}

/** After `maj`, `M` or the triangle: a triad, a sixth or a major seventh. */
function readMajor(text: TextScanner, parts: ChordParts, triangle: boolean): boolean {
  parts.majorSeventh = true;
  if (takeFigure(text, parts, SEVENTH)) return true;
  if (triangle) return takeTriangle(text, parts, 'Δ');
  return !text.sees(DIGIT) || takeFigure(text, parts, SIXTH);
}

/** After minor, diminished or augmented. */
function readQualityFigure(text: TextScanner, parts: ChordParts): boolean {
  if (!text.sees(DIGIT)) return true;
  if (parts.quality === 'augmented' && text.take(/5(?!\d)/y)) return true;
  if (parts.quality !== 'diminished' && takeFigure(text, parts, SIXTH)) return true;
  if (!takeFigure(text, parts, SEVENTH)) return false;
  readTrailingMajor(text, parts);
  return true;
}

/** Right after the root. */
function readPlainFigure(text: TextScanner, parts: ChordParts): boolean {
  if (!text.sees(DIGIT)) return true;
  const figure = text.take(PLAIN_FIGURE)?.[0];
  if (figure === undefined) return false;
  if (figure === '5') parts.quality = 'power';
  else if (figure === '4') parts.sus.push('4');
  else parts.figure = Number(figure.replace('/', '')) as ChordParts['figure'];
  if (parts.figure === 7 && readAltered(text, parts)) return true;
  if (parts.figure >= 7 && parts.figure <= 13) readTrailingMajor(text, parts);
  return true;
}

/** `7M`, `7maj`, `7△`: the sign after its figure. */
function readTrailingMajor(text: TextScanner, parts: ChordParts): void {
  parts.majorSeventh = text.attempt(() => takeMajor(text) !== undefined && !text.sees(DIGIT));
}

/** `alt`, `7alt`, `7(alt)`, `alt7`, and nothing after it. */
function readAltered(text: TextScanner, parts: ChordParts): boolean {
  return text.attempt(() => {
    const bracket = text.take(/\( */y) !== null;
    if (text.take(ALTERED) === null || (bracket && text.take(/ *\)/y) === null)) return false;
    if (parts.figure === 0) text.take(/7/y);
    if (!text.atEnd) return false;
    parts.quality = 'altered';
    parts.figure = 7;
    return true;
  });
}
