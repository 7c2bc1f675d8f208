/**
 * How far a chord lies from a key. What the numbers say is their order and about how many bars of one make up for
 * leaving the key; `RULES.md`, HARM-20, has them in words.
 */
export const DISTANCE = {
  own: 0,
  /** From another of a minor key's scales, and a dominant that the key has but not on its fifth. */
  otherSource: 0.2,
  /** Dominants, diminished chords and related iis that lead to a chord of the key; the backdoor. */
  toOwn: 0.6,
  /** Those that lead to a lowered degree. */
  toLowered: 1,
  /** Those that lead to any other. */
  toForeign: 1.6,
  /** Added where the goal does not come. */
  unresolved: 0.6,
  /** I7, IV7 with a blue seventh. */
  blue: 0.8,
  /** A minor triad of the key with a sixth or seventh that the key does not have. */
  coloured: 0.8,
  borrowedFromMinor: 1,
  borrowed: 1.4,
  sliding: 1.8,
  visited: 2,
  /** No chord of the key, but on a note of it. */
  foreignOnOwnNote: 2.4,
  foreign: 3,
} as const;
