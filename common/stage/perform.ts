import type { Take } from './cue.ts';

/** A take folded: what `locate`, `upcoming`, `announced` and `judge` read. Opaque outside `stage`. */
export interface Performance {
  readonly take: Take;
}

export declare function perform(take: Take): Performance;
