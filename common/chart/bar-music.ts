/** How bars are counted. The pulse is the lower figure, in 6/8, 9/8 and 12/8 the dotted quarter. */
export interface Metre {
  /** As written: '4/4', '5/4 (3+2)', '12/8'. */
  readonly text: string;
  readonly upper: number;
  readonly lower: number;
  /** Pulses in a full bar: 4 in 4/4, 2 in 6/8, 5 in 5/4. */
  readonly pulses: number;
  /** Pulses in each group, adding up to `pulses`: [3, 2]; one group [4] where nothing is said. */
  readonly groups: readonly number[];
  /** The pulse divides in three. */
  readonly compound: boolean;
}

/** What sounds over a stretch of a bar, after `%`, `/` and carried chords are resolved. */
export interface Cell {
  readonly kind: 'chord' | 'rest' | 'noChord' | 'unknown';
  /** The chord symbol as typed (concert pitch), with a bass that a lone `/G` put under it; '' for a rest or N.C. */
  readonly symbol: string;
  readonly atPulse: number;
  readonly lengthPulses: number;
  /** Sounds an eighth early. */
  readonly pushed: boolean;
  /** Goes on from the bar before, is not struck anew: an empty bar, `/` first in a bar. */
  readonly carried: boolean;
}

/** Where in the passes a word over the bar applies. */
export type Reach = { readonly leg: string } | { readonly only: number } | { readonly last: true };

/** A word over the bar that acts. Lengths in bars; bpm counts pulses. */
export type Mark =
  | { readonly kind: 'break'; readonly bars: number }
  | { readonly kind: 'stopTime' }
  | { readonly kind: 'hits' | 'kicks'; readonly counts: string }
  | { readonly kind: 'fill' | 'hold' | 'short' | 'letRing' | 'onCue' }
  | { readonly kind: 'metre'; readonly metre: Metre }
  | { readonly kind: 'key'; readonly key: string }
  | { readonly kind: 'tempo'; readonly bpm: number }
  | { readonly kind: 'rit' | 'accel' | 'aTempo' }
  | { readonly kind: 'feel'; readonly feel: string }
  | { readonly kind: 'dynamic'; readonly sign: string }
  | { readonly kind: 'tacet'; readonly bars: number }
  | { readonly kind: 'pickUp' | 'segno' | 'toCoda' };

/** Words over the bar: all are shown to the players, those with a mark also act. */
export interface Word {
  /** Without the quotes and without the reach. */
  readonly text: string;
  readonly atPulse: number;
  readonly mark?: Mark;
  readonly reach?: Reach;
}

/** What a bar's text means where it stands. Derived, never stored as the truth. */
export interface BarMusic {
  readonly metre: Metre;
  /** Length of this bar: `metre.pulses`, fewer in a pick-up. */
  readonly pulses: number;
  readonly pickUp: boolean;
  /** In order of `atPulse`; together they fill the bar. */
  readonly cells: readonly Cell[];
  readonly words: readonly Word[];
  /** Key in force, as `key:` or the last `key` word in the section says; '' where none is known. */
  readonly key: string;
  /** Typed as `%` (1) or `%%` (2): may be drawn as the repeat sign. */
  readonly repeats?: 1 | 2;
}
