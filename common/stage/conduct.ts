import type { Road } from '../form/road.ts';
import type { Called, Cue, Take } from './cue.ts';
import type { Refused } from './judge.ts';
import type { Performance } from './perform.ts';

export interface ConductState {
  readonly take: Take | null;
  /** Of `take`, where the caller has it already; else it is folded here. */
  readonly performance?: Performance;
}

export interface Call {
  readonly id: string;
  readonly cue: Cue;
  readonly by?: string;
}

export interface ConductContext {
  /** The chart that a callTune names, where it exists; `semitones` as its key asked for reads it. */
  readonly chart?: {
    readonly id: string;
    readonly title: string;
    readonly road: Road;
    readonly semitones?: number;
  };
  readonly newTakeId: string;
}

export type Effect =
  | { readonly kind: 'newTake'; readonly take: Take; readonly called: Called }
  | { readonly kind: 'append'; readonly called: Called }
  /** The id was called before: nothing changes, this is what it was then. */
  | { readonly kind: 'repeat'; readonly called: Called };

export type Conducted = { readonly ok: true; readonly effect: Effect } | Refused;

export declare function conduct(
  state: ConductState,
  call: Call,
  atMs: number,
  context: ConductContext,
): Conducted;
export declare function conductTakeBack(
  state: ConductState,
  call: { readonly id: string; readonly cue: string; readonly by?: string },
  atMs: number,
): Conducted;
