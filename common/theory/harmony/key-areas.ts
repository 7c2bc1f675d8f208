import type { Key } from '../key.ts';
import { type ChordCore, isSameChord } from './chord-core.ts';
import { HELD, heldBars, homesElsewhere, isAtRest, isCadence } from './homes-elsewhere.ts';
import { type KeyFrame, keyFrame } from './key-frame.ts';
import { semitonesUp } from './pitch-set.ts';
import { type Progression, sensesIn } from './progression.ts';
import type { Sense } from './sense.ts';

/** A chord heard in a key. */
export interface Heard {
  readonly frame: KeyFrame;
  readonly sense: Sense;
  /** It lies in another key than the one written. */
  readonly isAway: boolean;
}

/** What it takes to leave the written key, in bars of a chord that lies 1 away from it. */
const LEAVING = 2.5;
const COMING_BACK = 0.5;
/** Added where the change would part a dominant from its goal, or a ii from its dominant. */
const PARTING = 1;
/** Instead, where the goal is the ii of the key that begins: it is reached in one key and left in the next. */
const PIVOT = 0.3;
/** A chord that is repeated does what it did. */
const NEVER = Number.POSITIVE_INFINITY;
/** A chord counts by the bars it lasts, within these. */
const [SHORTEST, LONGEST] = [0.5, 4];

/**
 * The key in which each chord is heard: the written key, but where another key that has a cadence of its own
 * explains a stretch with clearly less. Of all ways through the keys the one is taken on which the chords'
 * distances, each times its bars, and the changes of key add up to the least.
 * @param written the key written for each chord
 * @param tonics the name of each chord's root, for naming the keys
 */
export function hearKeys(
  progression: Progression,
  written: readonly Key[],
  bars: readonly number[],
  tonics: readonly string[],
): Heard[] {
  const senses = new Map<KeyFrame, readonly Sense[]>();
  const sensesOf = (frame: KeyFrame): readonly Sense[] => {
    const known = senses.get(frame) ?? sensesIn(frame, progression);
    senses.set(frame, known);
    return known;
  };
  const home = written.map(keyFrame);
  const weights = bars.map((length) => Math.min(LONGEST, Math.max(SHORTEST, length)));
  const held = heldBars(progression, bars);
  let away = homesElsewhere(progression.cores, home, held, tonics)
    .map(keyFrame)
    .filter(
      (frame) => !home.some(({ tonic, isMinor }) => tonic === frame.tonic && isMinor === frame.isMinor),
    );
  for (;;) {
    const states: Path[] = [home, ...away.map((frame) => home.map(() => frame))];
    const path = cheapestPath(
      states.map((state) => costsOf(state, sensesOf, weights)),
      progression.cores.map((chord, i) => {
        const before = progression.cores[i - 1];
        if (before && isSameChord(before, chord) && home[i - 1] === home[i]) return NEVER;
        if (!leadsTo(before, chord)) return 0;
        const next = progression.cores[progression.neighbours[i]?.next ?? -1];
        return chord.family === 'minor' && next?.family === 'dominant' && leadsTo(chord, next)
          ? PIVOT
          : PARTING;
      }),
    );
    const heard = path.map((state, i): Heard => {
      const frame = (states[state] as Path)[i] as KeyFrame;
      return { frame, sense: sensesOf(frame)[i] as Sense, isAway: frame !== home[i] };
    });
    const unfounded = new Set(stretchesWithoutHome(heard, progression.cores, home, bars, held));
    if (unfounded.size === 0) return heard;
    away = away.filter((frame) => !unfounded.has(frame));
  }
}

type Path = readonly KeyFrame[];

const costsOf = (
  state: Path,
  sensesOf: (frame: KeyFrame) => readonly Sense[],
  weights: readonly number[],
): number[] => state.map((frame, i) => (sensesOf(frame)[i]?.distance ?? 0) * (weights[i] ?? 1));

/** For each chord the state on the cheapest way through; of equal ways the one that stays in the earlier state. */
function cheapestPath(costs: readonly (readonly number[])[], parting: readonly number[]): number[] {
  const length = costs[0]?.length ?? 0;
  const cameFrom: number[][] = [];
  let total: number[] = costs.map((_, state) => (state === 0 ? 0 : LEAVING));
  for (let i = 0; i < length; i++) {
    const from: number[] = [];
    const best = total.indexOf(Math.min(...total));
    total = total.map((stayed, state) => {
      const moved = (total[best] ?? 0) + (state === 0 ? COMING_BACK : LEAVING) + (parting[i] ?? 0);
      from.push(i > 0 && moved < stayed ? best : state);
      return (i > 0 ? Math.min(stayed, moved) : stayed) + (costs[state]?.[i] ?? 0);
    });
    cameFrom.push(from);
  }
  // Ending away is leaving too: the written key is where the music comes from and goes.
  const ended = total.map((cost, state) => cost + (state === 0 ? 0 : COMING_BACK));
  let state = ended.indexOf(Math.min(...ended));
  const path: number[] = new Array(length);
  for (let i = length - 1; i >= 0; i--) {
    path[i] = state;
    state = cameFrom[i]?.[state] ?? 0;
  }
  return path;
}

/** A dominant that falls a fifth, or a ii that falls to its dominant. */
function leadsTo(before: ChordCore | undefined, chord: ChordCore): boolean {
  if (before === undefined || semitonesUp(before.root, chord.root) !== 5) return false;
  if (before.family === 'dominant') return true;
  return chord.family === 'dominant' && (before.family === 'minor' || before.family === 'half-diminished');
}

/** Frames of stretches in which their own home chord is neither led to by its dominant nor held for a phrase. */
function stretchesWithoutHome(
  heard: readonly Heard[],
  cores: readonly ChordCore[],
  written: readonly KeyFrame[],
  bars: readonly number[],
  held: readonly number[],
): KeyFrame[] {
  const unfounded: KeyFrame[] = [];
  for (let from = 0, to = 0; from < heard.length; from = to) {
    const frame = heard[from]?.frame as KeyFrame;
    let hasCadence = false;
    let atHome = 0;
    let isHeld = false;
    for (to = from; to < heard.length && heard[to]?.frame === frame; to++) {
      const chord = cores[to] as ChordCore;
      if (chord.root !== frame.tonic || !isAtRest(chord)) continue;
      hasCadence ||= to > from && isCadence(cores[to - 1], chord, written[to]);
      atHome += bars[to] ?? 0;
      isHeld ||= (held[to] ?? 0) >= HELD;
    }
    if (heard[from]?.isAway && !hasCadence && !isHeld && atHome < HELD) unfounded.push(frame);
  }
  return unfounded;
}
