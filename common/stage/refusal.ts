/** Why a cue makes no sense: `why` is stable, `words` is a sentence for the leader. */
export interface Refusal {
  readonly why: string;
  readonly words: string;
}
