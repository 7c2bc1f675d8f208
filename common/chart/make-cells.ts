import type { Cell } from './bar-music.ts';
import type { TimeToken } from './bar-text.ts';
import type { PlacedToken } from './share-bar.ts';
import { overBass, type Sounding, soundingAfter } from './sounding.ts';

export interface CellsMade {
  readonly cells: readonly Cell[];
  readonly after: Sounding | null;
  /** Tokens that need a chord before them and have none. */
  readonly lost: readonly TimeToken[];
}

/** A cell in which the chord before goes on, and nothing where there is none. */
export const carriedCell = (before: Sounding | null, atPulse: number, lengthPulses: number): Cell => ({
  kind: before?.kind ?? 'noChord',
  symbol: before?.symbol ?? '',
  atPulse,
  lengthPulses,
  pushed: false,
  carried: before !== null && !before.afterRest,
});

/**
 * The cells of a bar's tokens. A slash lengthens the chord it follows, and after a rest strikes it anew; rests
 * that follow each other are one. Stretches before the first token are filled by the chord before.
 */
export const makeCells = (placed: readonly PlacedToken[], before: Sounding | null): CellsMade => {
  const cells: Cell[] = [];
  const lost: TimeToken[] = [];
  let sounding = before;
  const add = (cell: Cell) => {
    cells.push(cell);
    sounding = soundingAfter(cell, sounding);
  };
  const first = placed[0]?.fromPulse ?? 0;
  if (first > 0) add(carriedCell(sounding, 0, first));

  for (const { token, fromPulse, toPulse } of placed) {
    const length = toPulse - fromPulse;
    if (length <= 0) continue;
    const last = cells.at(-1);
    const lengthen = (cell: Cell) => {
      cells[cells.length - 1] = { ...cell, lengthPulses: cell.lengthPulses + length };
    };
    const place = { atPulse: fromPulse, lengthPulses: length };
    switch (token.kind) {
      case 'slash':
        if (last && last.kind !== 'rest') lengthen(last);
        else {
          if (sounding === null) lost.push(token);
          add(carriedCell(sounding, fromPulse, length));
        }
        break;
      case 'rest':
        if (last?.kind === 'rest') lengthen(last);
        else add({ kind: 'rest', symbol: '', ...place, pushed: false, carried: false });
        break;
      case 'noChord':
        add({ kind: 'noChord', symbol: '', ...place, pushed: token.pushed, carried: false });
        break;
      case 'bass': {
        const isLost = sounding === null || sounding.kind === 'noChord';
        if (isLost) lost.push(token);
        const kind = isLost || sounding === null ? 'unknown' : sounding.kind;
        const symbol = isLost || sounding === null ? token.text : overBass(sounding.symbol, token.bass);
        add({ kind, symbol, ...place, pushed: token.pushed, carried: false });
        break;
      }
      case 'repeat':
        add({ kind: 'unknown', symbol: token.text, ...place, pushed: false, carried: false });
        break;
      default:
        add({ kind: token.kind, symbol: token.symbol, ...place, pushed: token.pushed, carried: false });
    }
  }
  return { cells, after: sounding, lost };
};

/**
 * The cells of an earlier bar, for `%`, fitted to a bar of so many pulses. A chord that went on into that bar
 * goes on here only if it is what sounds now.
 */
export const repeatCells = (source: readonly Cell[], pulses: number, before: Sounding | null): CellsMade => {
  const cells = source
    .filter((cell) => cell.atPulse < pulses)
    .map((cell, index, kept): Cell => {
      const end = index === kept.length - 1 ? pulses : Math.min(pulses, cell.atPulse + cell.lengthPulses);
      const goesOn = before !== null && !before.afterRest && before.symbol === cell.symbol;
      return { ...cell, lengthPulses: end - cell.atPulse, carried: cell.carried && (index > 0 || goesOn) };
    });
  const after = cells.reduce<Sounding | null>((sounding, cell) => soundingAfter(cell, sounding), before);
  return { cells, after, lost: [] };
};
