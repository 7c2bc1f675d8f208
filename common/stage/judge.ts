import type { Cue } from './cue.ts';
import type { Performance } from './perform.ts';
import type { Place } from './place.ts';

/** Why a cue is not taken: `why` is stable, `words` is a sentence for the leader. */
export interface Refused {
  readonly ok: false;
  readonly why: string;
  readonly words: string;
}

export interface Accepted {
  readonly ok: true;
  readonly landsMs: number;
  readonly landsAt: Place;
  readonly barsToGo: number;
}

export declare function judge(performance: Performance, cue: Cue, atMs: number): Accepted | Refused;
export declare function judgeTakeBack(
  performance: Performance,
  id: string,
  atMs: number,
): { readonly ok: true } | Refused;
