import type { ChordCore } from './chord-core.ts';
import { aboveTonic, goalName, plainNumeral } from './degree-name.ts';
import { DISTANCE } from './distance.ts';
import type { KeyFrame, Source } from './key-frame.ts';
import { contains, isWithin, maskOf, semitonesUp } from './pitch-set.ts';
import type { Job, Rule, Sense } from './sense.ts';

/** In a blues I, IV and V are dominant sevenths and stay I7, IV7 and V7, whatever follows. */
export const bluesChord: Rule = (frame, { chord, next }) => {
  if (!frame.isBlues || chord.family !== 'dominant') return null;
  const root = aboveTonic(frame, chord.root);
  if (root !== 0 && root !== 5) return null;
  if (root === 0 && frame.isMinor) return null;
  const goal = (root + 5) % 12;
  const sense: Sense = { job: 'blues', numeral: plainNumeral(frame, chord), distance: DISTANCE.own };
  if (next === null || aboveTonic(frame, next.root) !== goal) return sense;
  return {
    ...sense,
    also: { degree: 'V', figure: chord.figure, of: goalName(frame, goal, next.family) },
    goal: { semitones: goal, by: 'fifth', comes: 'next' },
  };
};

/** The home chord of a mode whose seventh is flat: I7 of mixolydian. */
export const modalHome: Rule = (frame, { chord }) =>
  chord.family === 'dominant' && chord.root === frame.tonic && isWithin(chord.tones, frame.home[0].tones)
    ? { job: 'tonic', numeral: plainNumeral(frame, chord), distance: DISTANCE.own }
    : null;

/** All its notes are notes of the key's first scale. */
export const ownChord: Rule = (frame, around, nextSense) => {
  const { chord } = around;
  if (!belongsTo(chord, frame.home[0])) return null;
  const sense = inKey(frame, chord, DISTANCE.own);
  const two = relatedTwo(frame, around, nextSense);
  if (two === null) return sense;
  return two.numeral.of === undefined ? sense : { ...sense, also: two.numeral };
};

/** A minor or half-diminished chord before a dominant that is not the key's own is that dominant's ii. */
export const relatedTwo: Rule = (frame, { chord, next }, nextSense) => {
  const isTwo = chord.family === 'half-diminished' || (chord.family === 'minor' && /^7?$/.test(chord.figure));
  if (!isTwo || next?.family !== 'dominant' || nextSense === null) return null;
  const { goal } = nextSense;
  // The ii of V7 is the key's own, and iv before the backdoor home is borrowed.
  if (goal === undefined || (goal.semitones === 0 && nextSense.job !== 'tritone substitute')) return null;
  const step = semitonesUp(chord.root, next.root);
  const two = (distance: number, degree: string, of?: string): Sense => ({
    job: 'related ii',
    numeral: { degree, figure: chord.figure, ...(of === undefined ? {} : { of }) },
    distance,
    goal,
  });
  const of = goal.semitones === 0 ? undefined : goalName(frame, goal.semitones, null);
  if (step === 5 && nextSense.job === 'backdoor') return two(DISTANCE.toLowered, 'iv', of);
  if (step === 5 && nextSense.job === 'tritone substitute') {
    return two(DISTANCE.toLowered, plainNumeral(frame, chord).degree);
  }
  const leadsOn = step === 5 || (step === 11 && nextSense.job === 'tritone substitute');
  return leadsOn ? two(DISTANCE.toOwn, 'ii', nextSense.also?.of ?? nextSense.numeral.of ?? of) : null;
};

/** From harmonic or melodic minor in a minor key: the scales that the key borrows from itself. */
export const otherSource: Rule = (frame, { chord }) => {
  const sources = frame.home.filter((each) => belongsTo(chord, each));
  // V is the reason for which harmonic minor is, the other chords are heard in melodic minor first.
  const source = aboveTonic(frame, chord.root) === 7 ? sources.at(-1) : sources[0];
  if (source === undefined) return null;
  return { ...inKey(frame, chord, DISTANCE.otherSource), source: source.scale };
};

/** A minor triad of the key whose sixth or seventh is raised: the line of `Dm Dm(maj7) Dm7 Dm6`. */
export const colouredMinor: Rule = (frame, { chord }) => {
  const isColoured = chord.family === 'minor' && (chord.figure === '△7' || chord.figure === '6');
  const triad = chord.tones & maskOf([0, 3, 7].map((above) => (chord.root + above) % 12));
  return isColoured && isWithin(triad, frame.home[0].tones) ? inKey(frame, chord, DISTANCE.coloured) : null;
};

/** From another scale on the same tonic: modal interchange. */
export const borrowedChord: Rule = (frame, around, nextSense) => {
  const { chord } = around;
  const index = frame.parallel.findIndex((each) => belongsTo(chord, each));
  const source = frame.parallel[index];
  if (source === undefined) return null;
  // Minor chords that go down or up by semitones are heard as one that slides: `Bm7 Bbm7 Am7` in C.
  const isNear = index === 0 || chord.family !== 'minor';
  if (!isNear && slidingChord(frame, around, nextSense) !== null) return null;
  return {
    job: 'borrowed',
    numeral: plainNumeral(frame, chord),
    distance: index === 0 ? DISTANCE.borrowedFromMinor : DISTANCE.borrowed,
    source: source.scale,
  };
};

/** A chord of its own kind lies a semitone away and comes next: `Ebm7 Dm7`. */
export const slidingChord: Rule = (frame, { chord, next }) => {
  if (next === null || next.family !== chord.family) return null;
  const step = semitonesUp(chord.root, next.root);
  if (step !== 1 && step !== 11) return null;
  return {
    job: 'sliding',
    numeral: plainNumeral(frame, chord),
    distance: DISTANCE.sliding,
    goal: { semitones: aboveTonic(frame, next.root), by: 'semitone', comes: 'next' },
  };
};

/** A chord at rest to which its own dominant fell: home for a moment. */
export const visitedChord: Rule = (frame, { chord, before }) => {
  const isAtRest = chord.family === 'major' || chord.family === 'minor';
  const lender = frame.parallel[0];
  if (lender && belongsTo(chord, lender)) return null;
  if (
    chord.root === frame.tonic ||
    !isAtRest ||
    before?.family !== 'dominant' ||
    semitonesUp(before.root, chord.root) !== 5
  )
    return null;
  return { ...foreignChord(frame, chord), job: 'visited', distance: DISTANCE.visited };
};

/** What no rule explains still has its degree. */
export const foreignChord = (frame: KeyFrame, chord: ChordCore): Sense => ({
  job: 'foreign',
  numeral: plainNumeral(frame, chord),
  distance: contains(frame.home[0].tones, chord.root) ? DISTANCE.foreignOnOwnNote : DISTANCE.foreign,
});

const belongsTo = (chord: ChordCore, source: Source): boolean =>
  contains(source.tones, chord.root) && isWithin(chord.tones, source.tones);

/** I, iii and vi are at home, V and vii lead home, the others lead away (in a minor key i and III are at home). */
const inKey = (frame: KeyFrame, chord: ChordCore, distance: number): Sense => ({
  job: jobOf(aboveTonic(frame, chord.root)),
  numeral: plainNumeral(frame, chord),
  distance,
});

function jobOf(root: number): Job {
  if (root === 0 || root === 3 || root === 4 || root === 9) return 'tonic';
  return root === 7 || root === 11 ? 'dominant' : 'subdominant';
}
