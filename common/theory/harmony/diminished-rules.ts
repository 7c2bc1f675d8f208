import type { ChordCore } from './chord-core.ts';
import { aboveTonic, degreeName, goalName, ownFamily, passingDegreeName } from './degree-name.ts';
import { DISTANCE } from './distance.ts';
import type { KeyFrame } from './key-frame.ts';
import { contains, isWithin, semitonesUp } from './pitch-set.ts';
import type { Goal, Rule, Sense, Surroundings } from './sense.ts';

/** ♯IV°7 of a blues, or before I: rises from IV to the fifth of home. */
export const raisedFourth: Rule = (frame, { chord, before, next }) => {
  if (chord.family !== 'diminished' || aboveTonic(frame, chord.root) !== 6) return null;
  const goesHome = next !== null && next.root === frame.tonic;
  const comesFromFour = before !== null && aboveTonic(frame, before.root) === 5;
  if (!goesHome && !(frame.isBlues && comesFromFour)) return null;
  return {
    job: frame.isBlues ? 'blues' : comesFromFour ? 'passing diminished' : 'common-tone diminished',
    numeral: { degree: '#IV', figure: chord.figure },
    also: { degree: 'vii', figure: chord.figure, of: 'V' },
    distance: frame.isBlues ? DISTANCE.own : DISTANCE.toOwn,
    goal: { semitones: 0, by: 'same', comes: goesHome ? 'next' : 'never' },
  };
};

/**
 * A diminished chord between two chords, or below its goal. Between chords a semitone away on either side it
 * passes (♯I°7); coming from elsewhere to a chord a semitone above it leads there (vii°7/ii).
 */
export const movingDiminished: Rule = (frame, around) => {
  const { chord, next } = around;
  if (chord.family !== 'diminished' || next === null) return null;
  if (isStepTo(chord, next, 1)) return rising(frame, around, next);
  if (isStepTo(chord, next, 11)) {
    const numeral = {
      degree: passingDegreeName(frame, aboveTonic(frame, chord.root), 'down'),
      figure: chord.figure,
    };
    return { job: 'passing diminished', numeral, distance: DISTANCE.toOwn, goal: stepTo(frame, next) };
  }
  return null;
};

/** Keeps a note of the chord that follows, its root: I°7 before I, ♯II°7 before I. */
export const commonToneDiminished: Rule = (frame, { chord, next }) => {
  if (chord.family !== 'diminished' || next === null || !contains(allFour(chord), next.root)) return null;
  const degree = passingDegreeName(frame, aboveTonic(frame, chord.root), 'up');
  return {
    job: 'common-tone diminished',
    numeral: { degree, figure: chord.figure },
    distance: DISTANCE.toOwn,
    goal: { semitones: aboveTonic(frame, next.root), by: 'same', comes: 'next' },
  };
};

/** Belongs to the key, or would lead to a chord of the key; its other inversions are the same chord (D°7 for B°7). */
export const stayingDiminished: Rule = (frame, { chord, before, next }) => {
  if (chord.family !== 'diminished') return null;
  const root = aboveTonic(frame, chord.root);
  const goal = (root + 1) % 12;
  const own: Sense = {
    job: 'leading diminished',
    numeral: { degree: degreeName(frame, root, 'diminished'), figure: chord.figure },
    distance: DISTANCE.otherSource,
  };
  if (goal === 0) return { ...own, goal: { semitones: 0, by: 'semitone', comes: 'never' } };
  if (isWithin(chord.tones, frame.home[0].tones))
    return { ...own, job: 'subdominant', distance: DISTANCE.own };
  if (next !== null && contains(allFour(chord), (next.root + 11) % 12)) {
    return { ...own, distance: DISTANCE.toOwn, goal: stepTo(frame, next) };
  }
  const source = frame.home.find(({ tones }) => isWithin(chord.tones, tones));
  if (source !== undefined)
    return { ...own, job: root === 9 ? 'tonic' : 'subdominant', source: source.scale };
  const target = ownFamily(frame, goal);
  if (target !== null && target !== 'diminished') return leading(frame, chord, goal, 'never', null);
  if (contains(allFour(chord), (frame.tonic + 11) % 12)) return own;
  if (before?.root === chord.root) {
    const numeral = { degree: passingDegreeName(frame, root, 'up'), figure: chord.figure };
    return { job: 'common-tone diminished', numeral, distance: DISTANCE.toOwn };
  }
  const numeral = { degree: passingDegreeName(frame, root, 'down'), figure: chord.figure };
  return { job: 'foreign', numeral, distance: DISTANCE.toForeign };
};

function rising(frame: KeyFrame, { chord, before }: Surroundings, next: ChordCore): Sense {
  const root = aboveTonic(frame, chord.root);
  const toRoot = semitonesUp(chord.root, next.root) === 1;
  const isPassing = before !== null && isStepTo(chord, before, 11) && root !== 11;
  if (toRoot && !isPassing) return leading(frame, chord, (root + 1) % 12, 'next', next);
  const numeral = { degree: passingDegreeName(frame, root, 'up'), figure: chord.figure };
  const sense: Sense = {
    job: 'passing diminished',
    numeral,
    distance: DISTANCE.toOwn,
    goal: stepTo(frame, next),
  };
  if (!toRoot) return sense;
  const of = goalName(frame, (root + 1) % 12, next.family);
  return { ...sense, also: { degree: 'vii', figure: chord.figure, of } };
}

function leading(
  frame: KeyFrame,
  chord: ChordCore,
  goal: number,
  comes: Goal['comes'],
  next: ChordCore | null,
): Sense {
  const of = goal === 0 ? {} : { of: goalName(frame, goal, next?.family ?? null) };
  return {
    job: 'leading diminished',
    numeral: { degree: 'vii', figure: chord.figure, ...of },
    distance:
      goal === 0 ? DISTANCE.otherSource : DISTANCE.toOwn + (comes === 'never' ? DISTANCE.unresolved : 0),
    goal: { semitones: goal, by: 'semitone', comes },
  };
}

/** Root or bass of the neighbour, or the root of what stands over its bass, lies so many semitones above the chord. */
const isStepTo = (chord: ChordCore, { root, bass, above }: ChordCore, semitones: number): boolean =>
  [root, bass, above?.root ?? root].some((each) => semitonesUp(chord.root, each) === semitones);

const stepTo = (frame: KeyFrame, next: ChordCore): Goal => ({
  semitones: aboveTonic(frame, next.root),
  by: 'semitone',
  comes: 'next',
});

/** The four notes of the seventh chord, for a triad too: they all lie three semitones apart. */
const allFour = ({ root }: ChordCore): number =>
  [0, 3, 6, 9].reduce((mask, above) => mask | (1 << ((root + above) % 12)), 0);
