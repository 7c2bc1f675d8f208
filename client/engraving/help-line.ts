import type { BarMusic } from '../../common/chart/bar-music.ts';
import type { Help, PlacedHelp } from '../../common/help/help.ts';
import { type NoteNames, noteName } from '../../common/theory/note-name.ts';
import { textWidthEm } from './chord-metrics.ts';
import { type BarItem, barShares, layBar } from './lay-bar.ts';
import { fretCount } from './lay-fret-diagram.ts';
import { layKeyboard } from './lay-keyboard.ts';

/** A bar of a line, with what stands under its chords. */
export interface HelpedMusic {
  readonly music: BarMusic;
  readonly helps: readonly PlacedHelp[];
}

/** What all that stands under the chords of a line has in common, so that it is drawn to one scale. */
export interface HelpLine {
  /** There are bars with so many chords that drawings would be too wide. */
  readonly narrow: boolean;
  /** Frets of every diagram. */
  readonly frets: number;
  /** Of the widest keyboard, in the units of its keys; all keys are as long as its own. */
  readonly keyboardWidth: number;
  /** Notes of a voicing one above the other, and how wide the widest is over its font size. */
  readonly notes: { readonly rows: number; readonly widthEm: number };
  /** The width that each has at least in the bar of that index, as CSS has it, where 100cqw is the width within that bar. */
  readonly widthIn: (bar: number) => string;
}

/** Bars with so many chords have no room for drawings that are wide. */
const CROWDED = 3;
/** Between the names of the two hands, in ems. */
const HANDS_GAP_EM = 0.4;

/**
 * The common scale of a line.
 * @param read as for the line's first bar: the shares of the bars are by it
 * @param crowded chords of a bar from which on drawings are narrow
 */
export const helpLine = (
  bars: readonly HelpedMusic[],
  read: (symbol: string) => string,
  names: NoteNames,
  crowded: number = CROWDED,
): HelpLine => {
  const laid = bars.map(({ music }) => layBar(music, read, names));
  const shares = barShares(laid);
  const helps = bars.flatMap((bar) => bar.helps.map(({ help }) => help));
  const needs = bars.flatMap((bar, at) => {
    if (bar.helps.length === 0) return [];
    return [
      { share: shares[at] ?? 1, isLast: at === bars.length - 1, ...cellOf(bar, laid[at]?.items ?? []) },
    ];
  });
  const widths = helps.map((help) =>
    help.kind === 'voicing' ? layKeyboard(help.voicing.keys.map(({ pitch }) => pitch)).width : 0,
  );
  return {
    narrow: bars.some((bar) => bar.helps.length >= crowded),
    frets: Math.max(0, ...helps.map((help) => (help.kind === 'shape' ? fretCount(help.shape) : 0))),
    keyboardWidth: Math.max(0, ...widths),
    notes: notesOf(helps, names),
    widthIn: (bar) => {
      const own = shares[bar] ?? 1;
      const line = `(100cqw + ${edgesOf(bar === bars.length - 1)})`;
      const each = needs.map(
        ({ share, isLast, part, isCapped }) =>
          `${isCapped ? 'min(var(--least), ' : '('}(${line} * ${(share / own).toFixed(4)} - ${edgesOf(isLast)}) * ${part.toFixed(4)})`,
      );
      return each.length === 0 ? '100cqw' : `min(${each.join(', ')})`;
    },
  };
};

/** What a bar has beside its music: its padding, and its bar lines (`bar.css`). */
const edgesOf = (isLast: boolean): string => `(2 * var(--pad) + ${isLast ? 4 : 2}px)`;

/** The part of its bar that the narrowest place under a chord has, and whether it has less where the bar is wide. */
const cellOf = ({ helps, music }: HelpedMusic, items: readonly BarItem[]) => {
  const pulses = items.reduce((sum, { lengthPulses }) => sum + lengthPulses, 0);
  const [only] = helps;
  if (helps.length === 1 && only !== undefined) {
    return { part: (music.cells[only.cell]?.lengthPulses ?? pulses) / pulses, isCapped: false };
  }
  const isEven = items.every(({ lengthPulses }) => lengthPulses * items.length === pulses);
  return { part: 1 / helps.length, isCapped: !isEven || items.length > helps.length };
};

const notesOf = (helps: readonly Help[], names: NoteNames): HelpLine['notes'] => {
  const voicings = helps.flatMap((help) => (help.kind === 'voicing' ? [help.voicing] : []));
  const hands = voicings.map(({ keys }) =>
    (['left', 'right'] as const)
      .map((hand) => keys.filter((key) => key.hand === hand))
      .filter((held) => held.length > 0),
  );
  const widthOf = (held: readonly { readonly note: string }[]): number =>
    Math.max(...held.map(({ note }) => nameWidthEm(noteName(note, names))));
  return {
    rows: Math.max(1, ...hands.flat().map((held) => held.length)),
    widthEm: Math.max(
      1,
      ...hands.map(
        (each) => each.map(widthOf).reduce((sum, width) => sum + width, 0) + HANDS_GAP_EM * (each.length - 1),
      ),
    ),
  };
};

/** Signs are as wide as a small letter at most. */
const nameWidthEm = (name: string): number => textWidthEm(name.replace(/[♭♯𝄫𝄪]/gu, 'o'));
