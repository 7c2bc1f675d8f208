import { appliedDominant, tritoneSubstitute } from './applied-dominant.ts';
import type { ChordCore } from './chord-core.ts';
import { aboveTonic, goalName, ownFamily } from './degree-name.ts';
import { DISTANCE } from './distance.ts';
import type { KeyFrame } from './key-frame.ts';
import { isWithin, semitonesUp } from './pitch-set.ts';
import type { Goal, Rule, Sense, Surroundings } from './sense.ts';

/** V7 is the key's own dominant wherever it goes. */
export const ownDominant: Rule = (frame, { chord, next }) => {
  if (chord.family !== 'dominant' || aboveTonic(frame, chord.root) !== 7) return null;
  const comes = next !== null && next.root === frame.tonic ? 'next' : 'never';
  return {
    job: 'dominant',
    numeral: { degree: 'V', figure: chord.figure },
    distance: DISTANCE.own,
    goal: { semitones: 0, by: 'fifth', comes },
  };
};

/** A dominant that falls a fifth is V7 of where it goes; one that falls a semitone stands in for that V7. */
export const movingDominant: Rule = (frame, around, nextSense) => {
  const { chord, next } = around;
  if (chord.family !== 'dominant') return null;
  const goal = replacedGoal(frame, chord, nextSense) ?? goalOf(frame, around);
  if (goal === null) return null;
  if ((goal.comes === 'later' || goal.comes === 'again') && !isLikelyLater(frame, around, goal)) return null;
  const target = goal.comes === 'next' ? next : null;
  const name = goal.by === 'fifth' ? appliedDominant : tritoneSubstitute;
  return name(frame, chord, goal, target);
};

/** ♭VII7 that comes home, or is led in by iv: the backdoor. Led in by its iv it also opens to another major chord. */
export const backdoorDominant: Rule = (frame, around) => {
  const { chord, next } = around;
  if (chord.family !== 'dominant') return null;
  const goal = (aboveTonic(frame, chord.root) + 2) % 12;
  const comes = next !== null && next.family === 'major' && semitonesUp(chord.root, next.root) === 2;
  const isHome = goal === 0 && !frame.isMinor;
  if (isHome ? !comes && !isLedInByFour(around) : goal === 0 || !comes || !isLedInByFour(around)) return null;
  return {
    job: 'backdoor',
    numeral: {
      degree: 'bVII',
      figure: chord.figure,
      ...(isHome ? {} : { of: goalName(frame, goal, next?.family ?? null) }),
    },
    distance: isHome ? DISTANCE.toOwn : DISTANCE.toLowered,
    goal: { semitones: goal, by: 'step', comes: comes ? 'next' : 'never' },
  };
};

/** A major or augmented triad that falls a fifth does the work of V7: `V/V`, `V+/IV`. */
export const appliedTriad: Rule = (frame, { chord, next }) => {
  const { family, figure, tones } = chord;
  const isTriad = (family === 'major' && figure === '') || figure === '+';
  if (!isTriad || next === null || semitonesUp(chord.root, next.root) !== 5) return null;
  const root = aboveTonic(frame, chord.root);
  const goal: Goal = { semitones: (root + 5) % 12, by: 'fifth', comes: 'next' };
  if (root === 7) {
    const distance = isWithin(tones, frame.home[0].tones) ? DISTANCE.own : DISTANCE.otherSource;
    return { job: 'dominant', numeral: { degree: 'V', figure }, distance, goal };
  }
  // A major chord of the parallel minor (♭VII before ♭III) is heard as borrowed; III+ belongs to a minor key.
  const lenders = frame.isMinor ? [] : frame.parallel.slice(0, 1);
  const explained = family === 'augmented' ? frame.home : [frame.home[0], ...lenders];
  if (explained.some((source) => isWithin(tones, source.tones))) return null;
  return appliedDominant(frame, chord, goal, next);
};

/** V7 of a chord of the key, before the substitute of that chord's own dominant: `A7 Ab7 G7` for `A7 D7 G7`. */
function replacedGoal(frame: KeyFrame, chord: ChordCore, nextSense: Sense | null): Goal | null {
  if (nextSense?.job !== 'tritone substitute' || nextSense.goal?.by !== 'semitone') return null;
  const semitones = (aboveTonic(frame, chord.root) + FIFTH_DOWN) % 12;
  const isReplaced = (nextSense.goal.semitones + FIFTH_UP) % 12 === semitones;
  const target = ownFamily(frame, semitones);
  if (!isReplaced || target === null || target === 'diminished') return null;
  return { semitones, by: 'fifth', comes: 'replaced' };
}

/**
 * Where a dominant leads: a fifth down or a semitone down. The goal may wait behind its own ii (`D7 Dm7 G7`),
 * behind the ii of the dominant itself (`A7 Em7 A7 Dm7`), behind the substitute (`Db7 G7 Cmaj7`) or behind the
 * chord that keeps the goal waiting over its root (`D7 C/G G7`, `Ab7 C/G G7`).
 */
function goalOf(frame: KeyFrame, { chord, next, later }: Surroundings): Goal | null {
  if (next === null) return null;
  const goal = (by: 'fifth' | 'semitone', comes: Goal['comes']): Goal => ({
    semitones: (aboveTonic(frame, chord.root) + (by === 'fifth' ? FIFTH_DOWN : SEMITONE_DOWN)) % 12,
    by,
    comes,
  });
  const step = semitonesUp(chord.root, next.root);
  if (step === FIFTH_DOWN) return goal('fifth', 'next');
  if (step === SEMITONE_DOWN) return goal('semitone', 'next');
  if (later !== null && isSixFourBefore(later, next)) {
    const toFifth = semitonesUp(chord.root, later.root);
    if (toFifth === FIFTH_DOWN) return goal('fifth', 'later');
    if (toFifth === SEMITONE_DOWN) return goal('semitone', 'later');
  }
  if (later === null || later.family !== 'dominant') return behindSubstitute(step, chord, next, later, goal);
  const leap = semitonesUp(chord.root, later.root);
  if (next.family === 'minor' || next.family === 'half-diminished') {
    if (step === 0 && leap === FIFTH_DOWN) return goal('fifth', 'later');
    if (step === FIFTH_UP && leap === 0) return goal('fifth', 'again');
    if (step === TRITONE && leap === SEMITONE_DOWN) return goal('semitone', 'later');
  }
  return behindSubstitute(step, chord, next, later, goal);
}

/** Home over its fifth, which is the root of what follows: `C/G G7`. */
const isSixFourBefore = (fifth: ChordCore, chord: ChordCore): boolean =>
  chord.bass === fifth.root &&
  fifth.bass === fifth.root &&
  semitonesUp(chord.root, fifth.root) === FIFTH_UP &&
  (fifth.family === 'dominant' || fifth.family === 'major');

const FIFTH_DOWN = 5;
const FIFTH_UP = 7;
const TRITONE = 6;
const SEMITONE_DOWN = 11;

function behindSubstitute(
  step: number,
  chord: ChordCore,
  next: ChordCore,
  later: ChordCore | null,
  goal: (by: 'fifth' | 'semitone', comes: Goal['comes']) => Goal,
): Goal | null {
  if (later === null || next.family !== 'dominant' || step !== TRITONE) return null;
  const leap = semitonesUp(chord.root, later.root);
  if (leap === FIFTH_DOWN) return goal('fifth', 'later');
  return leap === SEMITONE_DOWN ? goal('semitone', 'later') : null;
}

/** A goal behind other chords is believed where the key has it and nothing nearer explains the chord. */
function isLikelyLater(frame: KeyFrame, around: Surroundings, goal: Goal): boolean {
  const root = aboveTonic(frame, around.chord.root);
  if (ownFamily(frame, goal.semitones) === null) return false;
  // A vamp on i7 and IV7 waits for nothing, though i7 is the ii of IV7.
  if (goal.comes === 'again') return around.next?.root !== frame.tonic;
  if (goal.by === 'fifth') return true;
  if (root === 10 && !frame.isMinor && isLedInByFour(around)) return false;
  return root === 1 || ownFamily(frame, (root + FIFTH_DOWN) % 12) === null;
}

const isLedInByFour = ({ chord, before }: Surroundings): boolean =>
  before?.family === 'minor' && semitonesUp(before.root, chord.root) === FIFTH_DOWN;
