import { bassNotes } from '../theory/harmony/bass-notes.ts';
import { pitchClassOf } from '../theory/pitch.ts';
import { bassClassOf, nearest, stepTo } from './bass-pitch.ts';
import { chance, pick } from './chance.ts';
import type { Chord } from './changes.ts';

/** A chord to walk through, and where it leads. */
export interface Walk {
  readonly chord: Chord;
  readonly beats: number;
  /** Where it begins: the chord's bass, or another of its notes where the chord goes on from the bar before. */
  readonly startPitch: number;
  /** The chord that follows and the pitch of its bass; null where none does. */
  readonly next: { readonly chord: Chord; readonly pitch: number } | null;
}

/** A note of the walking bass. */
const notesTo = (next: NonNullable<Walk['next']>, chord: Chord): number[] =>
  bassNotes(chord.symbol, next.chord.symbol, next.chord.key).approaches.map(({ note }) =>
    nearest(next.pitch, pitchClassOf(note)),
  );

/**
 * A note for each beat: the start, then steps of the scale or the chord in one direction, and on the last beat a note
 * that leads to the next chord's bass. Only that last note depends on what follows. Common practice, no source.
 * Example: over `C7` in four before `F7`: C E G G♭.
 * @param dice gives a number from 0 up to 1 for each whole number, always the same
 */
export const walk = ({ chord, beats, startPitch, next }: Walk, dice: (what: number) => number): number[] => {
  const pitches = [startPitch];
  let direction: 1 | -1 = startPitch < 36 || (startPitch < 41 && dice(0) < 0.6) ? 1 : -1;
  let pitch = startPitch;
  for (let beat = 1; beat < beats - 1; beat += 1) {
    const isScale = beat === 1 && dice(1) < 0.5;
    const step = stepTo(pitch, direction, isScale ? chord.scale : chord.tones);
    ({ pitch, direction } = step);
    pitches.push(pitch);
  }
  if (beats > 1) pitches.push(lastOf(pitch, direction, chord, next, dice));
  return pitches;
};

const lastOf = (
  pitch: number,
  direction: 1 | -1,
  chord: Chord,
  next: Walk['next'],
  dice: (what: number) => number,
): number => {
  const ways = next && bassClassOf(next.chord) !== bassClassOf(chord) ? notesTo(next, chord) : [];
  const fresh = ways.filter((way) => way !== pitch && way !== next?.pitch);
  if (fresh.length === 0) return stepTo(pitch, direction, chord.tones).pitch;
  // The line goes on without a leap; of ways that lie about as near, now this one, now that.
  const byDistance = [...fresh].sort((a, b) => Math.abs(a - pitch) - Math.abs(b - pitch));
  return pick(byDistance.slice(0, 2), dice(2));
};

/** Numbers from 0 up to 1 for the line through a chord of a bar. */
export const diceFor =
  (seed: number, barIndex: number, changeIndex: number) =>
  (what: number): number =>
    chance(seed, barIndex, changeIndex, 100 + what);
