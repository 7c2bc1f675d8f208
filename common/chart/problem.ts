/** Something in a chart's text that could not be taken as written. The rest is still read. */
export interface Problem {
  /** From 1; absent where the chart did not come from a text. */
  readonly line?: number;
  /** From 1, in UTF-16 units of the text as given. */
  readonly column?: number;
  /** The bar, section or road line it is in, where there is one. */
  readonly id?: string;
  /** A short stable name such as 'unknown-chord'. */
  readonly kind: string;
  /** What is wrong, in a player's words. */
  readonly words: string;
  /** What would be right, ready to be typed instead; absent where nobody can know. */
  readonly suggestion?: string;
}
