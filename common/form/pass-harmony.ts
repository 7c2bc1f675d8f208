import type { BarMusic } from '../chart/bar-music.ts';
import type { ChordSymbol } from '../theory/chord-symbol.ts';
import { analyse, type ChordAnalysis, type TimedChord } from '../theory/harmony/analyse.ts';
import { type Bracket, bracketsOf } from '../theory/harmony/bracket.ts';
import type { Key } from '../theory/key.ts';
import type { NoteNames } from '../theory/note-name.ts';
import { turnaroundOf } from './turnaround.ts';

/** A chord of a pass, as its reader reads it, and what it does there. */
export interface HarmonyChord {
  /** Of the bar in the pass, from 0. */
  readonly barIndex: number;
  readonly barId: string;
  /** Of the cell in the bar's music. */
  readonly cell: number;
  readonly symbol: ChordSymbol;
  /** How long it lasts, in bars. */
  readonly bars: number;
  readonly analysis: ChordAnalysis;
}

/** A stretch in one key; chord indices, ends included. */
export interface KeyStretch {
  readonly key: Key;
  /** It is not the key that is written. */
  readonly isAway: boolean;
  readonly from: number;
  readonly to: number;
}

/** The harmony of one time through a leg. */
export interface PassHarmony {
  /** In order; rests, N.C. and unknown symbols have no chord. */
  readonly chords: readonly HarmonyChord[];
  readonly brackets: readonly Bracket[];
  readonly keys: readonly KeyStretch[];
}

/** A chord at its place, before it is analysed. */
export type PlacedChord = Omit<HarmonyChord, 'analysis'> & Pick<TimedChord, 'key'>;

/**
 * The harmony of the chords of a pass.
 * @param then the chords after the pass: the top again, or the next leg; a few are enough
 * @param names how whoever reads the reasons calls notes
 */
export const passHarmony = (
  placed: readonly PlacedChord[],
  then: readonly PlacedChord[],
  barCount: number,
  names: NoteNames = 'english',
): PassHarmony => {
  const analyses = analyse(placed, then, names);
  const chords = placed.map(({ barIndex, barId, cell, symbol, bars }, i): HarmonyChord => {
    const analysis = analyses[i];
    if (analysis === undefined) throw new Error(`no analysis for chord ${i} of ${placed.length}`);
    return { barIndex, barId, cell, symbol, bars, analysis };
  });
  const turnaround = turnaroundOf(chords, barCount);
  // A turnaround holds its own ii–V; one bracket says enough.
  const brackets = bracketsOf([...placed, ...then], analyses, names).filter(
    ({ from, kind }) => from < placed.length && !(turnaround && from >= turnaround.from && kind === 'ii–V'),
  );
  return { chords, brackets: turnaround ? [...brackets, turnaround] : brackets, keys: keyStretches(chords) };
};

const keyStretches = (chords: readonly HarmonyChord[]): KeyStretch[] => {
  const stretches: KeyStretch[] = [];
  chords.forEach(({ analysis: { key, isAway } }, i) => {
    const last = stretches.at(-1);
    const goesOn = last && last.key.tonic === key.tonic && last.key.mode === key.mode;
    if (goesOn) stretches[stretches.length - 1] = { ...last, to: i };
    else stretches.push({ key, isAway, from: i, to: i });
  });
  return stretches;
};

/** The chords of a bar that can be read, with the part of the bar that each lasts. */
export const chordsOfBar = (
  music: BarMusic,
  read: (symbol: string) => ChordSymbol | null,
): { readonly cell: number; readonly symbol: ChordSymbol; readonly bars: number }[] =>
  music.cells.flatMap(({ kind, symbol, lengthPulses }, cell) => {
    const chord = kind === 'chord' ? read(symbol) : null;
    return chord === null ? [] : [{ cell, symbol: chord, bars: lengthPulses / music.pulses }];
  });
