import type { NoteEvent, Voice } from '../../common/band/note-event.ts';
import type { LocalMs, SharedMs } from '../../common/units.ts';

/** Loudness of everything and of each voice, 0–1. */
export interface BandMix {
  readonly master: number;
  readonly parts: Readonly<
    Record<Voice, { readonly volume: number; readonly muted: boolean; readonly solo: boolean }>
  >;
}

/** What makes the practice band heard needs this. */
export interface BandSoundParts {
  /** This tablet's clock, ms. */
  readonly localNow: () => number;
  readonly sharedAtLocal: (local: LocalMs) => SharedMs;
  /** What is played from one instant up to another, by what has been called so far. */
  readonly eventsBetween: (fromMs: number, untilMs: number) => readonly NoteEvent[];
  readonly mix: BandMix;
  /** How much later than the browser says a sound is heard, ms. Asked for each note. */
  readonly laterMs: () => number;
}

export interface BandSound {
  /** Something was called or wished otherwise: the plan has changed. */
  readonly replan: () => void;
  readonly setMix: (mix: BandMix) => void;
  readonly close: () => Promise<void>;
}

/** To be called from a touch or a key, else browsers keep silent. */
export type OpenBandSound = (parts: BandSoundParts) => Promise<BandSound>;
