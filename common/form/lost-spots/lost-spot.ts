import type { HeardPass } from './heard-pass.ts';

export type LostKind =
  /** The same chord over the seam between two passes. */
  | 'seam'
  | 'formLength'
  | 'oddPhrase'
  /** Begins like an earlier phrase and goes on otherwise. */
  | 'partsLater'
  | 'break'
  | 'metre'
  | 'key'
  | 'longChord'
  /** Added by somebody of the band. */
  | 'added';

/** What a finder finds. Bars are counted from 0 in the pass. */
export interface FoundSpot {
  readonly kind: LostKind;
  /** What is concerned, ends included; over the seam of two passes `toBar` lies before `fromBar`. */
  readonly fromBar: number;
  readonly toBar: number;
  /** Where it throws people. The number of bars of the pass is the top of what follows. */
  readonly atBar: number;
  /** Only in this pass. */
  readonly pass?: number | 'last';
  /** How likely it is to throw somebody, 0–100. */
  readonly weight: number;
  /** Why, in full: `5 bars over the top: 1 + 4 of E♭7`. */
  readonly reason: string;
  /** In few words, to be said a phrase ahead: `same chord for 5: listen for the fill in 16`. */
  readonly announce: string;
}

/** A place where players are likely to lose the form. */
export interface LostSpot extends FoundSpot {
  /**
   * Kind and written bars: `seam:b16 b1 b2`. The same in every leg that plays these bars and after edits elsewhere, so
   * that what was dismissed stays so; other bars are another spot. Written bars that are played twice in a pass give
   * two spots of one id.
   */
  readonly id: string;
  /** Ids of the written bars from `fromBar` to `toBar`, in the order played. */
  readonly bars: readonly string[];
}

/** A way to find spots in a pass. */
export type Finder = (pass: HeardPass) => FoundSpot[];

/** A number of bars as people say it: 1.5 → `1½`. */
export const barsWords = (bars: number): string => {
  const rounded = Math.round(bars * 4) / 4;
  const whole = Math.floor(rounded);
  const part = ['', '¼', '½', '¾'][(rounded - whole) * 4] ?? '';
  return whole === 0 && part !== '' ? part : `${whole}${part}`;
};
