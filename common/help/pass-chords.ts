import type { HarmonyChord } from '../form/pass-harmony.ts';

/** One time through a leg, as help is found for it. */
export interface PassChords {
  readonly chords: readonly HarmonyChord[];
  /** The pass is followed by itself. */
  readonly goesRound: boolean;
  /** The first chord after it; null where the road ends. */
  readonly after: HarmonyChord | null;
}
