import type { ChordSymbol } from '../chord-symbol.ts';
import { type ChordCore, coreOf, isSameChord } from './chord-core.ts';
import type { KeyFrame } from './key-frame.ts';
import { readSense } from './read-sense.ts';
import type { Sense, Surroundings } from './sense.ts';

/** Chords in the order in which they sound, each with its neighbours. */
export interface Progression {
  readonly cores: readonly ChordCore[];
  readonly neighbours: readonly Neighbours[];
  /** Equal numbers for chords between equal neighbours: a tune says most things twice. From 0. */
  readonly places: readonly number[];
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
  return { cores, neighbours, places: placesOf(cores, neighbours) };
}

/** What a chord does depends on the one before it and the three after it. */
function placesOf(cores: readonly ChordCore[], neighbours: readonly Neighbours[]): number[] {
  const numbers = new Map<ChordCore, number>();
  const numberAt = (index: number): number => {
    const core = cores[index];
    if (core === undefined) return 0;
    const number = numbers.get(core) ?? numbers.size + 1;
    numbers.set(core, number);
    return number;
  };
  const places = new Map<string, number>();
  return cores.map((_, i) => {
    const { before = -1, next = -1, later = -1 } = neighbours[i] ?? {};
    const around = [before, i, next, later, neighbours[later]?.next ?? -1].map(numberAt).join(' ');
    const place = places.get(around) ?? places.size;
    places.set(around, place);
    return place;
  });
}

/** What each chord does if the whole progression is heard in one key. */
export function sensesIn(frame: KeyFrame, { cores, neighbours, places }: Progression): Sense[] {
  const senses: Sense[] = new Array(cores.length);
  const known: Sense[] = [];
  for (let i = cores.length - 1; i >= 0; i--) {
    const [chord, at, place] = [cores[i], neighbours[i], places[i]];
    if (!chord || !at || place === undefined) continue;
    const around: Surroundings = {
      chord,
      before: cores[at.before] ?? null,
      next: cores[at.next] ?? null,
      later: cores[at.later] ?? null,
    };
    senses[i] = known[place] ??= readSense(frame, around, senses[at.next] ?? null);
  }
  return senses;
}
