/** An instant of a take: how many pulses have been played by then, and shared time. */
export interface Moment {
  readonly count: number;
  readonly ms: number;
}
