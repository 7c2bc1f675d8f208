import type { ChordSymbol } from '../../common/theory/chord-symbol.ts';
import { type NoteNames, noteName } from '../../common/theory/note-name.ts';
import { CAP_HEIGHT, textWidthEm } from './chord-metrics.ts';
import { SIGN_PATHS, type SignName, signFor } from './sign-path.ts';

/** A run of letters, or a sign, at its place. All measures are in ems of the chord's font size, y downwards from the baseline. */
export type ChordPiece =
  | {
      readonly kind: 'text';
      readonly text: string;
      readonly xEm: number;
      readonly yEm: number;
      readonly scale: number;
    }
  | {
      readonly kind: 'sign';
      readonly sign: SignName;
      readonly xEm: number;
      readonly yEm: number;
      readonly scale: number;
    };

export interface LaidChord {
  readonly pieces: readonly ChordPiece[];
  readonly widthEm: number;
  /** Not read as a chord: drawn as typed, underlined with dots. */
  readonly unknown: boolean;
}

/** Size of quality and extensions beside the root. */
const RAISED = 0.56;
/** The raised figures end at the height of the root's capital. */
const RAISED_Y = -(CAP_HEIGHT - RAISED * CAP_HEIGHT);
const ROOT_SIGN = 0.78;
const ROOT_SIGN_Y = -0.135;
const BASE = 0.88;
const BASS = 0.74;
const UNKNOWN = 0.66;

/** Splits 'E♭', '7♭9' into letters and signs and sets them one after the other. */
const runsFrom = (text: string, x: number, yEm: number, scale: number, signScale = scale, signY = yEm) => {
  const pieces: ChordPiece[] = [];
  let at = x;
  let letters = '';
  const flush = () => {
    if (letters === '') return;
    pieces.push({ kind: 'text', text: letters, xEm: at, yEm, scale });
    at += textWidthEm(letters) * scale;
    letters = '';
  };
  for (const character of text) {
    const sign = signFor(character);
    if (sign === null) letters += character;
    else {
      flush();
      pieces.push({ kind: 'sign', sign, xEm: at, yEm: signY, scale: signScale });
      at += SIGN_PATHS[sign].widthEm * signScale;
    }
  }
  flush();
  return { pieces, end: at };
};

/**
 * Sets a chord symbol like type: root and bass on the baseline, quality and extensions raised, signs drawn.
 * @param typed the symbol as typed; drawn so where `symbol` is null
 * @param names how the reader calls root and bass
 * @example layChord('N.C.', null).unknown === false // a sign of the trade, not a typo
 */
export const layChord = (
  typed: string,
  symbol: ChordSymbol | null,
  names: NoteNames = 'english',
): LaidChord => {
  if (symbol === null) {
    const text = typed === '' ? ' ' : typed;
    const { pieces, end } = runsFrom(text, 0, 0, UNKNOWN);
    return { pieces, widthEm: end, unknown: typed !== 'N.C.' };
  }
  const root = runsFrom(noteName(symbol.root, names), 0, 0, 1, ROOT_SIGN, ROOT_SIGN_Y);
  const base = runsFrom(symbol.drawn.base, root.end, 0, BASE);
  const raised = runsFrom(
    symbol.drawn.raised,
    base.end + (symbol.drawn.raised === '' ? 0 : 0.015),
    RAISED_Y,
    RAISED,
  );
  const pieces = [...root.pieces, ...base.pieces, ...raised.pieces];
  let end = raised.end;
  if (symbol.bass !== undefined) {
    const bass = runsFrom(
      `/${noteName(symbol.bass, names)}`,
      end + 0.01,
      0,
      BASS,
      BASS * ROOT_SIGN,
      BASS * ROOT_SIGN_Y,
    );
    pieces.push(...bass.pieces);
    end = bass.end;
  }
  return { pieces, widthEm: end, unknown: false };
};
