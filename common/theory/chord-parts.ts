/**
 * What a chord symbol says after its root and before its bass, taken apart. `chord-degrees.ts` makes degrees of
 * it; `CONVENTIONS.md` says how each part is read and why. The reader fills it in from left to right.
 */
export interface ChordParts {
  quality: 'major' | 'minor' | 'diminished' | 'half-diminished' | 'augmented' | 'power' | 'altered';
  /** The main figure; 0 for a triad. 69 is six-nine; 2 is an added second. */
  figure: 0 | 2 | 6 | 69 | 7 | 9 | 11 | 13;
  /** Whether the seventh, if there is one, is major (`maj7`, `△`, `7M`). */
  majorSeventh: boolean;
  /** What stands for the third: `4`, `2`, `b2`, `#4`. */
  sus: string[];
  /** Altered degrees as said: `b5`, `#9`. */
  altered: string[];
  /** Added degrees: `9`, `b6`, `7` (a major seventh). */
  added: string[];
  /** Numbers of the degrees left out. */
  omitted: string[];
}

/** A major triad, of which nothing more has been said. */
export const newChordParts = (): ChordParts => ({
  quality: 'major',
  figure: 0,
  majorSeventh: false,
  sus: [],
  altered: [],
  added: [],
  omitted: [],
});

/** Appends what is said; false where it was said before. */
export function sayOnce(said: string[], more: readonly string[]): boolean {
  if (more.some((each) => said.includes(each))) return false;
  said.push(...more);
  return true;
}
