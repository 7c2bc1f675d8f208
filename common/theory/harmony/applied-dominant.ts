import type { ChordCore } from './chord-core.ts';
import { goalName, ownFamily, plainNumeral } from './degree-name.ts';
import { DISTANCE } from './distance.ts';
import type { KeyFrame } from './key-frame.ts';
import { isWithin } from './pitch-set.ts';
import type { Goal, Sense } from './sense.ts';

/** The lowered degrees: outside a major key, but its chords are often borrowed and led to by dominants of their own. */
const LOWERED: readonly number[] = [1, 3, 8, 10];

/** V7 of its goal. @param target the chord that really comes there, `null` where it does not come next */
export function appliedDominant(
  frame: KeyFrame,
  chord: ChordCore,
  goal: Goal,
  target: ChordCore | null,
): Sense {
  const isOwn = isWithin(chord.tones, frame.home[0].tones);
  const of = goalName(frame, goal.semitones, target?.family ?? null);
  return {
    job: 'secondary dominant',
    numeral: { degree: 'V', figure: chord.figure, of },
    distance: (isOwn ? DISTANCE.otherSource : distanceTo(frame, goal)) + unresolved(goal),
    goal,
    ...(isOwn ? { also: plainNumeral(frame, chord) } : {}),
  };
}

/** Stands in for the V7 of its goal, a tritone away. */
export function tritoneSubstitute(
  frame: KeyFrame,
  chord: ChordCore,
  goal: Goal,
  target: ChordCore | null,
): Sense {
  const of = goal.semitones === 0 ? {} : { of: goalName(frame, goal.semitones, target?.family ?? null) };
  return {
    job: 'tritone substitute',
    numeral: { degree: 'subV', figure: chord.figure, ...of },
    also: plainNumeral(frame, chord),
    distance: distanceTo(frame, goal) + unresolved(goal),
    goal,
  };
}

function distanceTo(frame: KeyFrame, { semitones }: Goal): number {
  if (ownFamily(frame, semitones) !== null) return DISTANCE.toOwn;
  return LOWERED.includes(semitones) ? DISTANCE.toLowered : DISTANCE.toForeign;
}

const unresolved = ({ comes }: Goal): number => (comes === 'never' ? DISTANCE.unresolved : 0);
