/** Kinds of shapes, in the words of the trade. One shape can be of several. */
export const SHAPE_KINDS = [
  'shell',
  'three-note',
  'drop 2',
  'drop 3',
  'drop 2 and 4',
  'rootless',
  'triad',
  'spread triad',
  'open chord',
  'barre chord',
  'full',
] as const;

export type ShapeKind = (typeof SHAPE_KINDS)[number];

/** 1 the index finger … 4 the little finger. */
export type Finger = 1 | 2 | 3 | 4;

/** A finger that lies flat over neighbouring strings. */
export interface Barre {
  readonly finger: Finger;
  readonly fret: number;
  /** Index of its first string, counted as the instrument's strings are. */
  readonly firstString: number;
  readonly lastString: number;
}

/** A chord as it lies on the fretboard. Lists go by string, in the order of the instrument's open strings. */
export interface FretShape {
  /** `null` muted or not played, 0 open, else the fret that is pressed. */
  readonly frets: readonly (number | null)[];
  /** `null` where nothing is pressed; a barre has the same finger on several strings. */
  readonly fingers: readonly (Finger | null)[];
  /** What each string sounds in the chord: `1`, `b3`, `13`; `null` where it is silent. */
  readonly degrees: readonly (string | null)[];
  readonly barres: readonly Barre[];
  /** Sounding pitches, rising. */
  readonly midi: readonly number[];
  /** What the lowest note is in the chord. */
  readonly bassDegree: string;
  /** The lowest note is neither the root nor the bass after the slash. */
  readonly isInverted: boolean;
  readonly kinds: readonly ShapeKind[];
  /** The fret over which the index finger stands, whether it presses or not; 0 where no finger does. */
  readonly handFret: number;
  /** From the lowest to the highest fret pressed, in mm along the neck. */
  readonly stretchMm: number;
}
