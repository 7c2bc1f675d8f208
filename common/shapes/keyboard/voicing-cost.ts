import { type PathCost, SEMITONE_COST } from '../path-cost.ts';
import type { KeyboardVoicing, KeysStyle } from './keyboard-voicing.ts';

/** The middle of each style: two hands lie around C4, shells around E3, four notes of the left hand around B♭3. */
const HOMES: Readonly<Record<KeysStyle, number>> = { pairs: 50, shells: 52, rootless: 58, twoHands: 60 };
/** A voicing sixteen semitones from home costs one: it decides between ways that move alike, and stops long drifts. */
const SEMITONES_A_POINT = 16;

/**
 * What a path of voicings costs, in units of one voice moving by a semitone. A voicing: its distance from the middle of its style. A move: the semitones of every
 * voice, those of the top voice twice, and one for each note that both chords have and that does not stay where it is.
 */
export const VOICING_COST: PathCost<KeyboardVoicing> = {
  own: ({ style, keys }) => {
    const middle = ((keys[0]?.pitch ?? 0) + (keys.at(-1)?.pitch ?? 0)) / 2;
    return (SEMITONE_COST * Math.abs(middle - HOMES[style])) / SEMITONES_A_POINT;
  },
  move: (from, to) =>
    SEMITONE_COST * (voicesMoved(pitchesOf(from), pitchesOf(to)) + topMoved(from, to) + tonesLeft(from, to)),
};

const pitchesOf = ({ keys }: KeyboardVoicing): number[] => keys.map(({ pitch }) => pitch);

/**
 * Semitones of all voices, none of which cross: as many voices go each to its own; of fewer or more some divide or meet,
 * in the way that moves least.
 *
 * @param from rising
 * @param to rising
 * @example voicesMoved([53, 57, 60, 64], [53, 57, 59, 64]) // 1
 */
export function voicesMoved(from: readonly number[], to: readonly number[]): number {
  if (from.length === to.length)
    return from.reduce((sum, pitch, i) => sum + Math.abs(pitch - (to[i] ?? pitch)), 0);
  let least: number[] = [];
  from.forEach((pitch, i) => {
    const row: number[] = [];
    to.forEach((goal, j) => {
      const before = [least[j], row[j - 1], least[j - 1]].filter((cost) => cost !== undefined);
      row.push(Math.abs(goal - pitch) + (i === 0 && j === 0 ? 0 : Math.min(...before)));
    });
    least = row;
  });
  return least.at(-1) ?? 0;
}

const topMoved = (from: KeyboardVoicing, to: KeyboardVoicing): number =>
  Math.abs((from.keys.at(-1)?.pitch ?? 0) - (to.keys.at(-1)?.pitch ?? 0));

function tonesLeft({ keys }: KeyboardVoicing, to: KeyboardVoicing): number {
  let left = 0;
  for (const { pitch } of keys) {
    const isShared = to.keys.some((goal) => (goal.pitch - pitch) % 12 === 0);
    if (isShared && !to.keys.some((goal) => goal.pitch === pitch)) left += 1;
  }
  return left;
}
