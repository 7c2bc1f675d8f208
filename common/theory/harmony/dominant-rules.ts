import type { ChordCore } from './chord-core.ts';
import { aboveTonic, degreeName, goalName, ownFamily } from './degree-name.ts';
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
    distance: 0,
    goal: { semitones: 0, by: 'fifth', comes },
  };
};

/** A dominant that falls a fifth is V7 of where it goes; one that falls a semitone stands in for that V7. */
export const movingDominant: Rule = (frame, around) => {
  const { chord, next, later } = around;
  if (chord.family !== 'dominant' || next === null) return null;
  const root = aboveTonic(frame, chord.root);
  const goal = goalOf(root, chord, next, later);
  if (goal === null) return null;
  if (goal.comes !== 'next' && !isLikelyLater(frame, around, goal)) return null;
  const target = goal.comes === 'next' ? next : null;
  return goal.by === 'fifth' ? applied(frame, chord, goal, target) : substitute(frame, chord, goal, target);
};

/** ♭VII7 that comes home, or is led in by iv: the backdoor. Led in by its iv it also opens to another major chord. */
export const backdoorDominant: Rule = (frame, around) => {
  const { chord, next } = around;
  if (chord.family !== 'dominant') return null;
  const goal = (aboveTonic(frame, chord.root) + 2) % 12;
  const comes = next !== null && next.family === 'major' && semitonesUp(chord.root, next.root) === 2;
  const isLedIn = isLedInByFour(around);
  if (goal === 0 ? frame.isMinor || !(comes || isLedIn) : !(comes && isLedIn)) return null;
  const of = goal === 0 ? {} : { of: goalName(frame, goal, next?.family ?? null) };
  return {
    job: 'backdoor',
    numeral: { degree: 'bVII', figure: chord.figure, ...of },
    distance: goal === 0 ? 0.6 : 1,
    goal: { semitones: goal, by: 'step', comes: comes ? 'next' : 'never' },
  };
};

const isLedInByFour = ({ chord, before }: Surroundings): boolean =>
  before?.family === 'minor' && semitonesUp(before.root, chord.root) === 5;

/** A goal behind other chords is believed where the key has it and nothing nearer explains the chord. */
function isLikelyLater(frame: KeyFrame, around: Surroundings, goal: Goal): boolean {
  const root = aboveTonic(frame, around.chord.root);
  if (ownFamily(frame, goal.semitones) === null) return false;
  if (goal.by === 'fifth') return true;
  if (root === 10 && !frame.isMinor && isLedInByFour(around)) return false;
  return root === 1 || ownFamily(frame, (root + 5) % 12) === null;
}

/** A dominant that goes somewhere else: named by what it would lead to where that belongs to the key. */
export const stayingDominant: Rule = (frame, around) => {
  const { chord, before, next } = around;
  if (chord.family !== 'dominant') return null;
  const root = aboveTonic(frame, chord.root);
  const home = frame.home.find(({ tones }) => isWithin(chord.tones, tones));
  const plain = { degree: degreeName(frame, root, 'dominant'), figure: chord.figure };
  if (home !== undefined) {
    const isFirst = home === frame.home[0];
    const goal = (root + 5) % 12;
    return {
      job: 'subdominant',
      numeral: plain,
      distance: isFirst ? 0 : 0.3,
      ...(isFirst ? { also: { degree: 'V', figure: chord.figure, of: goalName(frame, goal, null) } } : {}),
      ...(isFirst ? {} : { source: home.scale }),
    };
  }
  const isAlone = next === null && before === null;
  if (root === 0 && !isAlone && (next === null || before === null || aboveTonic(frame, before.root) === 7)) {
    return { job: 'blues', numeral: plain, distance: 0.8 };
  }
  if (root === 5 && next !== null) return { job: 'blues', numeral: plain, distance: 0.8 };
  const goal = (root + 5) % 12;
  const isExpected = ownFamily(frame, goal) !== null && ownFamily(frame, goal) !== 'diminished';
  if (isExpected || (next === null && (goal === 8 || goal === 10))) {
    return applied(frame, chord, { semitones: goal, by: 'fifth', comes: 'never' }, null);
  }
  const below = (root + 11) % 12;
  if (root === 1 || (next === null && (below === 5 || below === 7))) {
    return substitute(frame, chord, { semitones: below, by: 'semitone', comes: 'never' }, null);
  }
  const triad = chord.tones & ~(1 << ((chord.root + 10) % 12));
  if (isWithin(triad, frame.home[0].tones)) return { job: 'blues', numeral: plain, distance: 0.8 };
  const lender = frame.parallel[0];
  if (lender !== undefined && isWithin(triad, lender.tones)) {
    return { job: 'borrowed', numeral: plain, distance: 1.3, source: lender.scale };
  }
  return { job: 'foreign', numeral: plain, distance: 2.4 };
};

/** A major or augmented triad that falls a fifth does the work of V7: `V/V`, `V+/IV`. */
export const appliedTriad: Rule = (frame, { chord, next }) => {
  const { family, figure, tones } = chord;
  const isTriad = (family === 'major' && figure === '') || figure === '+';
  if (!isTriad || next === null || semitonesUp(chord.root, next.root) !== 5) return null;
  const root = aboveTonic(frame, chord.root);
  const goal: Goal = { semitones: (root + 5) % 12, by: 'fifth', comes: 'next' };
  if (root === 7) {
    const distance = isWithin(tones, frame.home[0].tones) ? 0 : 0.3;
    return { job: 'dominant', numeral: { degree: 'V', figure }, distance, goal };
  }
  // A major chord of the parallel minor (♭VII before ♭III) is heard as borrowed; III+ belongs to a minor key.
  const explained =
    family === 'augmented'
      ? frame.home
      : [frame.home[0], ...(frame.isMinor ? [] : frame.parallel.slice(0, 1))];
  if (explained.some((source) => isWithin(tones, source.tones))) return null;
  return applied(frame, chord, goal, next);
};

/** The lowered degrees: outside a major key, but its chords are often borrowed and led to by dominants of their own. */
const LOWERED = [1, 3, 8, 10];

/**
 * Where a dominant leads: a fifth down or a semitone down. The goal may wait behind its own ii (`D7 Dm7 G7`),
 * behind the ii of the dominant itself (`A7 Em7 A7 Dm7`) or behind the substitute (`Db7 G7 Cmaj7`).
 */
function goalOf(root: number, chord: ChordCore, next: ChordCore, later: ChordCore | null): Goal | null {
  const step = semitonesUp(chord.root, next.root);
  const fifth: Goal = { semitones: (root + 5) % 12, by: 'fifth', comes: 'next' };
  const semitone: Goal = { semitones: (root + 11) % 12, by: 'semitone', comes: 'next' };
  if (step === 5) return fifth;
  if (step === 11) return semitone;
  if (later === null) return null;
  const leap = semitonesUp(chord.root, later.root);
  const isTwo = next.family === 'minor' || next.family === 'half-diminished';
  if (isTwo && later.family === 'dominant') {
    if (step === 0 && leap === 5) return { ...fifth, comes: 'later' };
    if (step === 7 && leap === 0) return { ...fifth, comes: 'again' };
    if (step === 6 && leap === 11) return { ...semitone, comes: 'later' };
  }
  if (next.family === 'dominant' && step === 6) {
    if (leap === 5) return { ...fifth, comes: 'later' };
    if (leap === 11) return { ...semitone, comes: 'later' };
  }
  return null;
}

function applied(frame: KeyFrame, chord: ChordCore, goal: Goal, target: ChordCore | null): Sense {
  const isOwnGoal = ownFamily(frame, goal.semitones) !== null;
  const isOwn = isWithin(chord.tones, frame.home[0].tones);
  const distance = isOwn ? 0.2 : isOwnGoal ? 0.6 : LOWERED.includes(goal.semitones) ? 1 : 1.6;
  const sense: Sense = {
    job: 'secondary dominant',
    numeral: {
      degree: 'V',
      figure: chord.figure,
      of: goalName(frame, goal.semitones, target?.family ?? null),
    },
    distance: distance + (goal.comes === 'never' ? 0.6 : 0),
    goal,
  };
  const root = aboveTonic(frame, chord.root);
  return isOwn
    ? { ...sense, also: { degree: degreeName(frame, root, 'dominant'), figure: chord.figure } }
    : sense;
}

function substitute(frame: KeyFrame, chord: ChordCore, goal: Goal, target: ChordCore | null): Sense {
  const isHome = goal.semitones === 0;
  const of = isHome ? {} : { of: goalName(frame, goal.semitones, target?.family ?? null) };
  const distance = isHome ? 0.6 : ownFamily(frame, goal.semitones) !== null ? 0.8 : 1.6;
  return {
    job: 'tritone substitute',
    numeral: { degree: 'subV', figure: chord.figure, ...of },
    also: { degree: degreeName(frame, aboveTonic(frame, chord.root), 'dominant'), figure: chord.figure },
    distance: distance + (goal.comes === 'never' ? 0.6 : 0),
    goal,
  };
}
