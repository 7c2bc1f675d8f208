import type { BarMusic, Cell } from '../../common/chart/bar-music.ts';
import type { NoteNames } from '../../common/theory/note-name.ts';
import { laidChord } from './chord-symbol.tsx';

/** Something drawn in a bar at its pulse. Widths in ems of the bar's chord size. */
export type BarItem =
  | {
      readonly kind: 'chord';
      /** As it is read here: already transposed. */
      readonly symbol: string;
      readonly widthEm: number;
      readonly atPulse: number;
      readonly lengthPulses: number;
      readonly pushed: boolean;
      /** Goes on from the bar before: a slash, and the chord as a reminder. */
      readonly carried: boolean;
    }
  | {
      readonly kind: 'rest';
      /** Quarter rests (dotted in compound time), or one whole-bar rest where 0. */
      readonly count: number;
      readonly widthEm: number;
      readonly atPulse: number;
      readonly lengthPulses: number;
    };

export interface LaidBar {
  readonly items: readonly BarItem[];
  /** What the items and the gaps between them take, in ems; never 0. */
  readonly widthEm: number;
}

/** Space kept after each item but the last, in ems. */
export const GAP_EM = 0.22;
export const PUSH_EM = 0.3;
export const SLASH_EM = 0.34;
/** Width of one rest, and size of a chord that only reminds, both beside a chord's size. */
export const REST_EM = 0.23;
export const CARRIED = 0.7;

const itemFrom = (
  cell: Cell,
  music: BarMusic,
  read: (symbol: string) => string,
  names: NoteNames,
): BarItem => {
  const { atPulse, lengthPulses } = cell;
  if (cell.kind === 'rest') {
    const whole = atPulse === 0 && lengthPulses >= music.pulses;
    const count = whole ? 0 : Math.min(12, Math.max(1, Math.round(lengthPulses)));
    return { kind: 'rest', count, widthEm: Math.max(1, count) * REST_EM, atPulse, lengthPulses };
  }
  const symbol = cell.kind === 'noChord' ? 'N.C.' : cell.kind === 'unknown' ? cell.symbol : read(cell.symbol);
  const chordEm = laidChord(symbol, names).widthEm * (cell.carried ? CARRIED : 1);
  return {
    kind: 'chord',
    symbol,
    widthEm: chordEm + (cell.pushed ? PUSH_EM : 0) + (cell.carried ? SLASH_EM : 0),
    atPulse,
    lengthPulses,
    pushed: cell.pushed,
    carried: cell.carried,
  };
};

/** Rests that follow each other are drawn as one group: they need no more room than their signs. */
const joinRests = (cells: readonly Cell[]): Cell[] => {
  const joined: Cell[] = [];
  for (const cell of cells) {
    const last = joined.at(-1);
    if (cell.kind === 'rest' && last?.kind === 'rest') {
      joined[joined.length - 1] = { ...last, lengthPulses: last.lengthPulses + cell.lengthPulses };
    } else joined.push(cell);
  }
  return joined;
};

/**
 * What is drawn in a bar and how wide it is, so that the size that fits is a division.
 * @param read gives a chord symbol as this reader reads it
 * @param names how this reader calls the notes
 */
export const layBar = (
  music: BarMusic,
  read: (symbol: string) => string,
  names: NoteNames = 'english',
): LaidBar => {
  const items = joinRests(music.cells).map((cell) => itemFrom(cell, music, read, names));
  const widths = items.reduce((sum, item) => sum + item.widthEm, 0);
  return { items, widthEm: Math.max(0.5, widths + GAP_EM * Math.max(0, items.length - 1)) };
};

/** What a bar of ordinary width holds, bar line and edges included, in ems of the size that one chord should have. */
const ORDINARY_EM = 2.3;
const EDGES_EM = 0.25;

/** Size that chords should have, beside that of a chord alone in its bar: two of them 56 px where one has 80. */
const wantedSize = (chords: number): number => (chords <= 1 ? 1 : chords === 2 ? 0.7 : 0.55);

/**
 * Shares of a line's width. Bars are equal where their music allows; one that holds more gets up to 1.7 times
 * as much, as an engraver would give it.
 * @example barShares([F7, F7, Gm7_C7, F7]) // [1, 1, 1, 1]: two short chords need no more room
 */
export const barShares = (bars: readonly LaidBar[]): number[] =>
  bars.map(({ items, widthEm }) => {
    const chords = items.filter((item) => item.kind === 'chord').length;
    const needed = EDGES_EM + widthEm * wantedSize(chords);
    return Math.min(1.7, Math.max(1, needed / ORDINARY_EM));
  });
