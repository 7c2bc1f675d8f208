export type LinkState =
  | { readonly state: 'finding' }
  | { readonly state: 'on' }
  /** The relay does not answer; playing on by ourselves. */
  | { readonly state: 'away' }
  /** The relay turned us away for good: a sentence for the person. */
  | { readonly state: 'closed'; readonly words: string };

export interface ClockState {
  /** "finding the beat" until the estimate is good enough. */
  readonly ready: boolean;
  readonly errorMs: number | null;
  readonly roundTripMs: number | null;
}

export interface Refusal {
  readonly why: string;
  /** A sentence for the person. */
  readonly words: string;
}
