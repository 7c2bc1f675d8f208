/** What plays a note of the practice band. */
export type Voice = 'click' | 'bass' | 'comping' | 'drums';

/** A note of the practice band at its time. */
export interface NoteEvent {
  /** Shared time. */
  readonly atMs: number;
  /** Infinity for a chord that is held until somebody releases it. */
  readonly lengthMs: number;
  readonly voice: Voice;
  /** Middle C is 60; drums and click are keys of the General MIDI percussion map. */
  readonly midi: number;
  /** 1–127. */
  readonly velocity: number;
}

/** A note at its place in a bar, before it has a time. */
export interface Stroke {
  readonly voice: Voice;
  /** As written, before swing. */
  readonly atPulse: number;
  readonly lengthPulses: number;
  readonly midi: number;
  /** Before the dynamics, 1–127. */
  readonly velocity: number;
}
