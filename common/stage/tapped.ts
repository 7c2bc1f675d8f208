/** A tap and what it did. It stays in the take: its tempo curve is drawn from it. */
export interface Tapped {
  /** Id of the cue. */
  readonly id: string;
  /** When it was made, and when it reached the relay. Shared time. */
  readonly tappedAtMs: number;
  readonly heardAtMs: number;
  /**
   * `followed`: place and tempo were corrected. `doubted`: too far off to be believed by itself. `bounced`: too soon
   * after the one before. `collected`: the tune waits, and the taps make no count yet; `countedIn`: with this one they
   * did. `released`: the hold was released.
   */
  readonly did: 'followed' | 'doubted' | 'bounced' | 'collected' | 'countedIn' | 'released';
  /** Late (−early) by so much against the pulse for which it was taken; 0 while waiting and held. */
  readonly errorMs: number;
}
