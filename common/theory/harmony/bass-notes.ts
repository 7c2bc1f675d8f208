import type { ChordSymbol } from '../chord-symbol.ts';
import { degreeFifths } from '../chord-tones.ts';
import type { Key } from '../key.ts';
import { fifthsOf, pitchClassAt, plainNoteAt } from '../pitch.ts';
import { chordNote } from './chord-note.ts';
import { keyFrame } from './key-frame.ts';
import { contains } from './pitch-set.ts';

/** A note on the last beat that leads to the next chord's bass. */
export interface Approach {
  readonly note: string;
  /** Where it lies: `a semitone below`. */
  readonly from: 'a semitone below' | 'a semitone above' | 'a step below' | 'a step above' | 'a fifth above';
}

/** What a bass has to know of a chord. */
export interface BassNotes {
  /** The lowest note: the root, or the bass after the slash. */
  readonly root: string;
  /** The chord's fifth, flat or raised as the chord has it; its root where the fifth is in the bass. */
  readonly fifth: string;
  /** Ways to the next chord's bass, those by semitone first; none where the bass stays. */
  readonly approaches: readonly Approach[];
}

/** Places on the line of fifths from the goal: a minor second below is five up, above five down. */
const WAYS: readonly { readonly from: Approach['from']; readonly fifths: number; readonly inKey: boolean }[] =
  [
    { from: 'a semitone below', fifths: 5, inKey: false },
    { from: 'a semitone above', fifths: -5, inKey: false },
    { from: 'a step below', fifths: -2, inKey: true },
    { from: 'a step above', fifths: 2, inKey: true },
    { from: 'a fifth above', fifths: 1, inKey: false },
  ];

/**
 * Root, fifth and approach notes of a chord. Whole steps are offered where they are notes of the key.
 * Common practice, no source.
 * @param next the chord that follows, `null` where none does
 * @param key in which the next chord is heard
 */
export function bassNotes(symbol: ChordSymbol, next: ChordSymbol | null, key: Key): BassNotes {
  const root = symbol.bass ?? symbol.root;
  const fifthDegree = ['5', 'b5', '#5'].find((degree) => symbol.degrees.includes(degree)) ?? '5';
  const fifth = chordNote(fifthsOf(symbol.root) + degreeFifths(fifthDegree), symbol.degrees);
  const goal = next === null ? root : (next.bass ?? next.root);
  const { tones } = keyFrame(key).home[0];
  const place = fifthsOf(goal);
  const staysPut = pitchClassAt(place) === pitchClassAt(fifthsOf(root));
  return {
    root,
    fifth: fifth === root ? symbol.root : fifth,
    approaches: staysPut
      ? []
      : WAYS.filter(({ fifths, inKey }) => !inKey || contains(tones, pitchClassAt(place + fifths)))
          .filter(({ fifths }) => pitchClassAt(place + fifths) !== pitchClassAt(fifthsOf(root)))
          .map(({ fifths, from }) => ({ note: plainNoteAt(place + fifths), from })),
  };
}
