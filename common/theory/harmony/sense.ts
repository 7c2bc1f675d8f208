import type { ScaleName } from '../scale.ts';
import type { ChordCore } from './chord-core.ts';
import type { KeyFrame } from './key-frame.ts';
import type { Numeral } from './numeral.ts';

/** What a chord does in its key. */
export type Job =
  /** Belongs to the key: home and what stands in for it, what leads away from home, what leads back. */
  | 'tonic'
  | 'subdominant'
  | 'dominant'
  /** I7, IV7 and ♯IV°7 of a blues. */
  | 'blues'
  /** V7/x, and II, III … as triads that do the same. */
  | 'secondary dominant'
  | 'tritone substitute'
  /** ♭VII7, coming home from a tone below. */
  | 'backdoor'
  /** The ii of a dominant that is not the key's own. */
  | 'related ii'
  /** vii°7 and vii°7/x. */
  | 'leading diminished'
  | 'passing diminished'
  /** Moves away from a chord and back, keeping notes. */
  | 'common-tone diminished'
  /** Modal interchange: from another scale on the same tonic. */
  | 'borrowed'
  /** Not of the key, but its own dominant led here. */
  | 'visited'
  /** Slides by a semitone into a chord of its own kind. */
  | 'sliding'
  | 'foreign';

/** The chord that a dominant or a diminished chord leads to. */
export interface Goal {
  /** Of its root above the tonic, 0–11. */
  readonly semitones: number;
  readonly by: 'fifth' | 'semitone' | 'step' | 'same';
  /**
   * `later`: behind its ii, or behind the chord's own substitute. `again`: the chord's own ii comes first and the
   * chord is taken up again. `replaced`: its tritone substitute comes instead. `never`: something else comes.
   */
  readonly comes: 'next' | 'later' | 'again' | 'replaced' | 'never';
}

/** How a chord is understood in one key. */
export interface Sense {
  readonly job: Job;
  readonly numeral: Numeral;
  /** Another name that is as good: `ii7/IV` of a chord that also belongs to the key. */
  readonly also?: Numeral;
  /** How far from the key: 0 belongs to it, 3 is foreign. The key of a stretch is the one that is nearest in all. */
  readonly distance: number;
  readonly goal?: Goal;
  /** The scale on the tonic from which it comes, where that is not the key's first. */
  readonly source?: ScaleName;
}

/** A chord between others. Neighbours are the nearest chords of another root or family: colours don't count. */
export interface Surroundings {
  readonly chord: ChordCore;
  readonly before: ChordCore | null;
  readonly next: ChordCore | null;
  readonly later: ChordCore | null;
}

/** A rule of the analysis: what a chord does in a key if the rule applies. */
export type Rule = (frame: KeyFrame, around: Surroundings, nextSense: Sense | null) => Sense | null;
