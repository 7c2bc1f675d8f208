import type { ChordSymbol } from '../chord-symbol.ts';
import { degreeFifths } from '../chord-tones.ts';
import { fifthsOf, pitchClassAt } from '../pitch.ts';
import { chordNote } from './chord-note.ts';

/** A note of a guide-tone line. */
export interface GuideTone {
  /** With its octave, concert pitch: `Db4`. */
  readonly note: string;
  /** MIDI number, middle C = 60. */
  readonly pitch: number;
  /** Of its chord: `3`, `b7`. */
  readonly degree: string;
  /** A flat seventh that falls a semitone to the third of the next chord. */
  readonly resolves: boolean;
}

/** The upper and the lower line, a note for each chord. */
export interface GuideToneLines {
  readonly upper: readonly GuideTone[];
  readonly lower: readonly GuideTone[];
}

/** MIDI numbers, ends included: the space in which the lines stay. */
export interface Range {
  readonly low: number;
  readonly high: number;
}

/** E3 to E5: the middle of every horn and of the keyboard. */
export const MIDDLE: Range = { low: 52, high: 76 };

/**
 * Thirds and sevenths through the changes as two lines that move as little as any two lines can: each chord's
 * third is in one, its seventh in the other. Where the third is suspended, what stands for it is played; the sixth stands for a
 * seventh, and the root where there is neither. Over a chord that is repeated the lines stay.
 *
 * Law: no other two lines in the range, within an octave of each other, move fewer semitones in all.
 */
export function guideTones(symbols: readonly ChordSymbol[], range: Range = MIDDLE): GuideToneLines {
  if (range.high - range.low < 11)
    throw new Error(`a range of an octave at least, not ${range.low}–${range.high}`);
  const isRepeated = symbols.map((symbol, i) => isSame(symbols[i - 1], symbol));
  const steps = symbols.flatMap((symbol, i) => (isRepeated[i] ? [] : [pairsOf(symbol, range)]));
  const changes = smoothest(steps, (range.low + range.high) / 2);
  let change = -1;
  const path = isRepeated.map((repeated) => changes[repeated ? change : ++change] as Pair);
  const line = (which: 'upper' | 'lower'): GuideTone[] =>
    path.map((pair, i) => {
      const [here, next] = [pair[which], path[i + 1]?.[which]];
      const isThird = next !== undefined && (next.degree === '3' || next.degree === 'b3');
      const resolves = here.degree === 'b7' && isThird && next.pitch === here.pitch - 1;
      return { note: here.note, pitch: here.pitch, degree: here.degree, resolves };
    });
  return { upper: line('upper'), lower: line('lower') };
}

const isSame = (one: ChordSymbol | undefined, other: ChordSymbol): boolean =>
  one?.root === other.root && one.degrees.join() === other.degrees.join();

interface Pitched {
  readonly pitch: number;
  readonly note: string;
  readonly degree: string;
}

interface Pair {
  readonly lower: Pitched;
  readonly upper: Pitched;
}

const THIRDS = ['3', 'b3', '4', '2', '#4', 'b2', '5', '1'];
const SEVENTHS = ['b7', '7', 'bb7', '6', '1', '5'];

/** Every way to play third and seventh in the range, no wider than an octave. */
function pairsOf(symbol: ChordSymbol, range: Range): Pair[] {
  const pick = (wanted: readonly string[], taken?: string): string =>
    wanted.find((degree) => degree !== taken && symbol.degrees.includes(degree)) ??
    (symbol.degrees[0] as string);
  const third = pick(THIRDS);
  const thirds = pitchesOf(symbol, third, range);
  const sevenths = pitchesOf(symbol, pick(SEVENTHS, third), range);
  return thirds.flatMap((one) =>
    sevenths.flatMap((other): Pair[] => {
      if (Math.abs(one.pitch - other.pitch) > 12) return [];
      return [one.pitch < other.pitch ? { lower: one, upper: other } : { lower: other, upper: one }];
    }),
  );
}

function pitchesOf({ root, degrees }: ChordSymbol, degree: string, { low, high }: Range): Pitched[] {
  const place = fifthsOf(root) + degreeFifths(degree);
  const name = chordNote(place, degrees);
  const pitches: Pitched[] = [];
  for (let pitch = low; pitch <= high; pitch++) {
    if (pitch % 12 !== pitchClassAt(place)) continue;
    // The octave number goes with the letter: Cb4 sounds as B3.
    const natural = pitch - accidentals(name);
    pitches.push({ pitch, note: `${name}${Math.floor(natural / 12) - 1}`, degree });
  }
  return pitches;
}

const accidentals = (note: string): number =>
  [...note.slice(1)].reduce((sum, sign) => sum + (sign === '#' ? 1 : -1), 0);

/** The pairs of least movement in all; of equal ones those nearest to the middle. */
function smoothest(steps: readonly (readonly Pair[])[], middle: number): Pair[] {
  const home = ({ lower, upper }: Pair): number => Math.abs(lower.pitch + upper.pitch - 2 * middle) / 1e6;
  let costs = (steps[0] ?? []).map(home);
  const cameFrom: number[][] = [];
  for (let i = 1; i < steps.length; i++) {
    const [before, here] = [steps[i - 1] ?? [], steps[i] ?? []];
    const from: number[] = [];
    costs = here.map((pair) => {
      let best = 0;
      let least = Number.POSITIVE_INFINITY;
      before.forEach((last, index) => {
        const moved =
          Math.abs(pair.lower.pitch - last.lower.pitch) + Math.abs(pair.upper.pitch - last.upper.pitch);
        const cost = (costs[index] ?? 0) + moved;
        if (cost < least) [least, best] = [cost, index];
      });
      from.push(best);
      return least + home(pair);
    });
    cameFrom.push(from);
  }
  let at = costs.indexOf(Math.min(...costs));
  const path: Pair[] = new Array(steps.length);
  for (let i = steps.length - 1; i >= 0; i--) {
    path[i] = steps[i]?.[at] as Pair;
    at = cameFrom[i - 1]?.[at] ?? 0;
  }
  return path;
}
