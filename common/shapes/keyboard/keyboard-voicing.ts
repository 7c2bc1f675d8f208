/** Notes of a chord in a player's hands. */
export interface KeyboardVoicing {
  readonly style: KeysStyle;
  /** Degrees from the lowest key up as the trade says them: `3-5-b7-9`; a key of the bass first: `1-b7-3-13-9`. */
  readonly form: string;
  /** From the lowest up, no key twice. */
  readonly keys: readonly PressedKey[];
}

export interface PressedKey {
  /** MIDI number, middle C = 60. */
  readonly pitch: number;
  readonly hand: 'left' | 'right';
  /** Degree above the root of the chord: `1`, `b7`, `13`; of a bass that is no note of the chord, too. */
  readonly degree: string;
  /** As the chord spells it, in plain signs, without octave: `Bb`. */
  readonly note: string;
}

/**
 * How a player plays: `pairs` root and third or root and seventh, `shells` root, third and seventh, `rootless` four notes
 * of the left hand over somebody else's bass, `twoHands` a bass and a shell's note on the left, the others on the right.
 */
export type KeysStyle = 'pairs' | 'shells' | 'rootless' | 'twoHands';
