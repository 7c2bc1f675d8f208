import type { BassManner } from './bass-patterns.ts';
import { type ReadChanges, readChangesOf } from './changes.ts';
import type { Rhythm } from './rhythm.ts';
import { plainVoicing, type Voicing } from './voicing.ts';

/** How the click is wished. */
export interface ClickManner {
  /** All beats, or two and four alone (the second of every two beats). */
  readonly beats: 'all' | 'two and four';
  /** Clicks in each beat: 1, or 2 (eighths, swung where the band swings), 3, 4. */
  readonly parts: 1 | 2 | 3 | 4;
  /** Beat one and the groups of the bar sound higher and louder. */
  readonly accents: boolean;
  /** It goes on where the band is silent by the chart: in breaks, stop-time, hits, rests. */
  readonly inBreaks: boolean;
}

/** How the practice band plays. */
export interface BandSettings {
  /** What is left to chance is the same for the same seed. */
  readonly seed: number;
  /** The feel of the chart's head, in free words. */
  readonly feel: string;
  readonly changes: ReadChanges;
  readonly voicing: Voicing;
  readonly click: ClickManner;
  /** Null: as the feel has it. */
  readonly bass: BassManner | null;
  readonly comping: Rhythm | null;
  /** Length of the first eighth against the second. Null: as the feel has it. */
  readonly swing: number | null;
  /** Drum fills before sections and at the end of the form, and a cymbal at the top. */
  readonly fills: boolean;
}

/** A band that plays by the feel of the chart. */
export const plainBand = (feel: string, seed = 1): BandSettings => ({
  seed,
  feel,
  changes: readChangesOf(),
  voicing: plainVoicing,
  click: { beats: 'all', parts: 1, accents: true, inBreaks: false },
  bass: null,
  comping: null,
  swing: null,
  fills: true,
});
