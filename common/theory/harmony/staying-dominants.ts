import { appliedDominant, tritoneSubstitute } from './applied-dominant.ts';
import { aboveTonic, goalName, ownFamily, plainNumeral } from './degree-name.ts';
import { DISTANCE } from './distance.ts';
import { isWithin } from './pitch-set.ts';
import type { Rule } from './sense.ts';

/** A dominant seventh that the key has on another degree than its fifth: VII7 of minor, IV7 of dorian. */
export const ownSeventh: Rule = (frame, { chord }) => {
  const home = frame.home.find(({ tones }) => isWithin(chord.tones, tones));
  if (chord.family !== 'dominant' || home === undefined) return null;
  const numeral = plainNumeral(frame, chord);
  if (home !== frame.home[0]) {
    return { job: 'subdominant', numeral, distance: DISTANCE.otherSource, source: home.scale };
  }
  const of = goalName(frame, (aboveTonic(frame, chord.root) + 5) % 12, null);
  const also = { degree: 'V', figure: chord.figure, of };
  return { job: 'subdominant', numeral, also, distance: DISTANCE.own };
};

/** IV7, and I7 where the music comes to rest on it, or that opens to I: home and its fourth with a blue seventh. */
export const blueSeventh: Rule = (frame, { chord, before, next }) => {
  if (chord.family !== 'dominant') return null;
  const root = aboveTonic(frame, chord.root);
  const isAlone = before === null && next === null;
  // A minor chord there is the ii of I7, which then leads on.
  const isFifth = before?.family === 'dominant' || before?.family === 'major';
  const comesFromFifth = isFifth && aboveTonic(frame, before.root) === 7;
  const isSuspendedHome = next?.root === chord.root && next.family !== 'minor';
  const isRest =
    root === 0 && !isAlone && (before === null || next === null || comesFromFifth || isSuspendedHome);
  const isFourth = root === 5 && next !== null;
  return isRest || isFourth
    ? { job: 'blues', numeral: plainNumeral(frame, chord), distance: DISTANCE.blue }
    : null;
};

/** A dominant that goes elsewhere keeps the name of the chord that the key expects after it. */
export const unresolvedDominant: Rule = (frame, { chord }) => {
  if (chord.family !== 'dominant') return null;
  const goal = (aboveTonic(frame, chord.root) + 5) % 12;
  const expected = ownFamily(frame, goal);
  if (expected === null || expected === 'diminished') return null;
  return appliedDominant(frame, chord, { semitones: goal, by: 'fifth', comes: 'never' }, null);
};

/** A major triad on III, VI or VII of a major key, where minor is due: heard as the dominant of a minor chord of the key. */
export const unresolvedTriad: Rule = (frame, { chord }) => {
  const isMajorTriad = chord.family === 'major' && chord.figure === '';
  if (!isMajorTriad || frame.isMinor || frame.home.some(({ tones }) => isWithin(chord.tones, tones)))
    return null;
  const goal = (aboveTonic(frame, chord.root) + 5) % 12;
  if (ownFamily(frame, goal) !== 'minor') return null;
  return appliedDominant(frame, chord, { semitones: goal, by: 'fifth', comes: 'never' }, null);
};

/** ♭II7 is the substitute of V7 wherever it goes. With nothing after them others are what they most often are. */
export const lastDominant: Rule = (frame, { chord, next }) => {
  if (chord.family !== 'dominant') return null;
  const root = aboveTonic(frame, chord.root);
  const [fifth, semitone] = [(root + 5) % 12, (root + 11) % 12];
  if (next === null && (fifth === 8 || fifth === 10)) {
    return appliedDominant(frame, chord, { semitones: fifth, by: 'fifth', comes: 'never' }, null);
  }
  if (root === 1 || (next === null && (semitone === 5 || semitone === 7))) {
    return tritoneSubstitute(frame, chord, { semitones: semitone, by: 'semitone', comes: 'never' }, null);
  }
  return null;
};

/** A triad of the key or of its parallel minor with a blue seventh on it: ♭VI7, ♭III7. */
export const seventhOnTriad: Rule = (frame, { chord }) => {
  if (chord.family !== 'dominant') return null;
  const triad = chord.tones & ~(1 << ((chord.root + 10) % 12));
  const numeral = plainNumeral(frame, chord);
  if (isWithin(triad, frame.home[0].tones)) return { job: 'blues', numeral, distance: DISTANCE.blue };
  const [lender] = frame.parallel;
  if (lender === undefined || !isWithin(triad, lender.tones)) return null;
  return { job: 'borrowed', numeral, distance: DISTANCE.borrowed, source: lender.scale };
};
