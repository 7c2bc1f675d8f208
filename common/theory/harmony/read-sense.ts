import { type ChordCore, isSameChord } from './chord-core.ts';
import {
  commonToneDiminished,
  movingDiminished,
  raisedFourth,
  stayingDiminished,
} from './diminished-rules.ts';
import type { KeyFrame } from './key-frame.ts';
import {
  bluesChord,
  borrowedChord,
  colouredMinor,
  foreignChord,
  modalHome,
  otherSource,
  ownChord,
  relatedTwo,
  slidingChord,
  visitedChord,
} from './key-rules.ts';
import { appliedTriad, backdoorDominant, movingDominant, ownDominant } from './moving-dominants.ts';
import type { Rule, Sense, Surroundings } from './sense.ts';
import {
  blueSeventh,
  lastDominant,
  ownSeventh,
  seventhOnTriad,
  unresolvedDominant,
  unresolvedTriad,
} from './staying-dominants.ts';

/** The rules in the order in which they are asked; the first that applies answers. */
const RULES: readonly Rule[] = [
  bluesChord,
  modalHome,
  raisedFourth,
  movingDiminished,
  commonToneDiminished,
  stayingDiminished,
  ownDominant,
  movingDominant,
  backdoorDominant,
  ownSeventh,
  blueSeventh,
  unresolvedDominant,
  lastDominant,
  seventhOnTriad,
  appliedTriad,
  unresolvedTriad,
  ownChord,
  relatedTwo,
  otherSource,
  colouredMinor,
  visitedChord,
  borrowedChord,
  slidingChord,
];

/** What a chord does in a key. @param nextSense what the chord after it does in the same key */
export function readSense(frame: KeyFrame, around: Surroundings, nextSense: Sense | null): Sense {
  const passing = passingBass(around, nextSense);
  if (passing !== null) return passing;
  for (const rule of RULES) {
    const sense = rule(frame, around, nextSense);
    if (sense !== null) return withBass(sense, around.chord);
  }
  return withBass(foreignChord(frame, around.chord), around.chord);
}

/** A bass that walks under one chord makes no other chord: the middle of `Am Am/B Am/C`. */
function passingBass({ chord, before, next }: Surroundings, nextSense: Sense | null): Sense | null {
  const { above, bass } = chord;
  if (above === undefined || before === null || next === null || nextSense === null) return null;
  if (!isSameChord(before, above) || !isSameChord(next, above) || before.bass === next.bass) return null;
  const { degree, of } = nextSense.numeral;
  const { goal: _, also: __, ...sense } = nextSense;
  const numeral = { degree, figure: above.figure, ...(of === undefined ? {} : { of }) };
  return withBass({ ...sense, numeral }, { ...above, bass });
}

const DEGREES = ['1', 'b9', '9', 'b3', '3', '11', 'b5', '5', 'b13', '6', 'b7', '7'] as const;

/** The bass as a degree of the chord, where it is not the root. */
function withBass(sense: Sense, { root, bass }: ChordCore): Sense {
  if (root === bass) return sense;
  const degree = DEGREES[(bass - root + 12) % 12];
  return degree === undefined ? sense : { ...sense, numeral: { ...sense.numeral, bass: degree } };
}
