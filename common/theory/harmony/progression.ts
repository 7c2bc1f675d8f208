import type { ChordSymbol } from '../chord-symbol.ts';
import { type ChordCore, coreOf, isSameChord } from './chord-core.ts';
import type { KeyFrame } from './key-frame.ts';
import { readSense } from './read-sense.ts';
import type { Sense, Surroundings } from './sense.ts';

/** Chords in the order in which they sound, each with its neighbours. */
export interface Progression {
  readonly cores: readonly ChordCore[];
  readonly neighbours: readonly Neighbours[];
}

/** Indices of the nearest chords of another root or family: before, next, and the one after that; −1 for none. */
interface Neighbours {
  readonly before: number;
  readonly next: number;
  readonly later: number;
}

/** The progression of these symbols. */
export function progressionOf(symbols: readonly ChordSymbol[]): Progression {
  const cores = symbols.map(coreOf);
  const startsAnew = cores.map((chord, i) => {
    const last = cores[i - 1];
    return last === undefined || !isSameChord(last, chord);
  });
  const next: number[] = new Array(cores.length);
  for (let i = cores.length - 1, start = -1; i >= 0; i--) {
    next[i] = start;
    if (startsAnew[i]) start = i;
  }
  let before = -1;
  const neighbours = cores.map((_, i): Neighbours => {
    if (startsAnew[i]) before = i - 1;
    const following = next[i] ?? -1;
    return { before, next: following, later: next[following] ?? -1 };
  });
  return { cores, neighbours };
}

/** What each chord does if the whole progression is heard in one key. */
export function sensesIn(frame: KeyFrame, { cores, neighbours }: Progression): Sense[] {
  const senses: Sense[] = new Array(cores.length);
  for (let i = cores.length - 1; i >= 0; i--) {
    const [chord, at] = [cores[i], neighbours[i]];
    if (!chord || !at) continue;
    const around: Surroundings = {
      chord,
      before: cores[at.before] ?? null,
      next: cores[at.next] ?? null,
      later: cores[at.later] ?? null,
    };
    senses[i] = readSense(frame, around, senses[at.next] ?? null);
  }
  return senses;
}
