import { type Key, type Mode, makeKey } from '../key.ts';
import { type ChordCore, isSameChord } from './chord-core.ts';
import type { KeyFrame } from './key-frame.ts';
import { isWithin, semitonesUp } from './pitch-set.ts';
import type { Progression } from './progression.ts';

/** A chord held for so many bars, or alternating with another for so long, is a home. */
export const HELD = 4;

/**
 * For each chord how long it lasts with its repetitions, in bars; where it alternates with one other chord, how long
 * the two do so (`Dm7 Em7 Dm7 Em7`), unless that is a ii and a dominant whose goal comes after all. 0 where the chord
 * before is the same.
 */
export function heldBars({ cores, neighbours }: Progression, bars: readonly number[]): number[] {
  const isSame = (one = -1, other = -1): boolean => {
    const [a, b] = [cores[one], cores[other]];
    return a !== undefined && b !== undefined && isSameChord(a, b);
  };
  const starts = cores.flatMap((_, i) => (neighbours[i]?.before === i - 1 ? [i] : []));
  const held = cores.map(() => 0);
  starts.forEach((start, at) => {
    let end = at + 2;
    while (isSame(starts[end], starts[end - 2])) end++;
    const beginsHere = !isSame(starts[at - 1], starts[at + 1]);
    const isVamp =
      end >= at + 4 && beginsHere && !isGoal(cores[starts[at + 1] ?? -1], cores[starts[end] ?? -1]);
    const to = starts[isVamp ? end : at + 1] ?? cores.length;
    held[start] = bars.slice(start, to).reduce((sum, each) => sum + each, 0);
  });
  return held;
}

/** A fifth or a semitone below the dominant. */
const isGoal = (dominant: ChordCore | undefined, chord: ChordCore | undefined): boolean =>
  dominant?.family === 'dominant' &&
  chord !== undefined &&
  [5, 11].includes(semitonesUp(dominant.root, chord.root));

/**
 * Keys that the music may go to: those to whose home chord its dominant falls, and those of a chord that is held
 * for a phrase, as in tunes made of modes.
 */
export function homesElsewhere(
  cores: readonly ChordCore[],
  written: readonly KeyFrame[],
  held: readonly number[],
  tonics: readonly string[],
): Key[] {
  const keys = new Map<string, Key>();
  cores.forEach((chord, i) => {
    if (!isAtRest(chord)) return;
    const mode = modeOf(chord, isCadence(cores[i - 1], chord, written[i]), held[i] ?? 0);
    if (mode === null) return;
    const name = `${chord.root} ${mode}`;
    if (!keys.has(name)) keys.set(name, makeKey(tonics[i] ?? 'C', mode));
  });
  return [...keys.values()];
}

function modeOf(chord: ChordCore, isReached: boolean, held: number): Mode | null {
  const isMinor = chord.family === 'minor';
  if (isReached) return isMinor ? 'minor' : 'major';
  if (held < HELD) return null;
  return isMinor ? 'dorian' : 'major';
}

export const isAtRest = ({ family, figure }: ChordCore): boolean =>
  family === 'minor' || (family === 'major' && !figure.includes('sus'));

/**
 * A dominant that falls a fifth, or a major triad that does so and is not of the written key: `D | A | D` in C.
 * @param written the key in which the second chord is written
 */
export function isCadence(
  before: ChordCore | undefined,
  chord: ChordCore,
  written: KeyFrame | undefined,
): boolean {
  if (before === undefined || semitonesUp(before.root, chord.root) !== 5) return false;
  if (before.family === 'dominant') return true;
  const isTriad = before.family === 'major' && before.figure === '';
  return isTriad && written !== undefined && !written.home.some(({ tones }) => isWithin(before.tones, tones));
}
