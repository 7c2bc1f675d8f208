import type { ChordSymbol } from '../theory/chord-symbol.ts';
import type { ChordAnalysis } from '../theory/harmony/analyse.ts';
import type { Bracket } from '../theory/harmony/bracket.ts';

interface BarChord {
  readonly barIndex: number;
  readonly symbol: ChordSymbol;
  readonly analysis: ChordAnalysis;
}

const LAST_BARS = 2;
const LEAST_CHORDS = 3;

/**
 * The turnaround of a pass: three or more chords in its last two bars, the last of them a dominant that leads to the
 * chord at the top. `null` where there is none. Common practice, no source.
 */
export const turnaroundOf = (chords: readonly BarChord[], barCount: number): Bracket | null => {
  const from = chords.findIndex(({ barIndex }) => barIndex >= barCount - LAST_BARS);
  const last = chords.at(-1);
  if (from < 0 || last === undefined) return null;
  const goal = last.analysis.leadsTo?.index ?? -1;
  const roots = chords.slice(from).filter(({ symbol }, i, all) => symbol.root !== all[i - 1]?.symbol.root);
  const leadsToTop = last.analysis.job !== 'blues' && goal >= chords.length;
  if (!leadsToTop || roots.length < LEAST_CHORDS) return null;
  return { kind: 'turnaround', from, to: chords.length - 1, words: 'turnaround' };
};
