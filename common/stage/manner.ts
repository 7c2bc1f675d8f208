/**
 * How the bars are played from some moment on: all that was called or written and stays in force, apart from place
 * and tempo. Never changed in place.
 */
export interface Manner {
  /** Semitones by which the chart is read higher (−lower) than written, −11 to 11. */
  readonly semitones: number;
  /** 'off' where the chart says stop-time and it was called off. */
  readonly stopTime: 'called' | 'written' | 'off' | null;
  /** The feel called; null where the chart's own is in force. */
  readonly feel: 'half' | 'double' | null;
  /** The feel the chart came to last: 'swing', 'half-time'; null where it is the head's. */
  readonly writtenFeel: string | null;
  /** The dynamic called; null where the chart's own is in force. */
  readonly dynamic: 'down' | 'build' | null;
  /** The sign the chart came to last: 'mf', 'cresc'. */
  readonly writtenDynamic: string | null;
  readonly solo: Solo | null;
  readonly trading: Trading | null;
  readonly loop: Loop | null;
}

/** Who solos in which order. */
export interface Solo {
  readonly order: readonly string[];
  /** Index of who solos; while nobody does, of who will be the next. May be beyond the last. */
  readonly at: number;
  /** Id of the leg in which somebody solos; null while nobody does. */
  readonly leg: string | null;
}

/** Whether a leg is traded. */
export interface Trading {
  readonly leg: string;
  /** Bars of a turn as the road map has it for that leg. */
  readonly written: number | undefined;
  /** Null where the leg is not traded, or no more. */
  readonly turns: Turns | null;
}

export interface Turns {
  /** Bars of a turn; the last one before the top may be shorter. */
  readonly bars: number;
  /** Who was named with the trade; null where it is the solo order's. */
  readonly players: readonly string[] | null;
  /** Turns taken in the passes before this one. */
  readonly before: number;
}

/** A spot that is played again and again. */
export interface Loop {
  readonly leg: string;
  /** Bar indexes, both played. */
  readonly from: number;
  readonly to: number;
  /** From 1. */
  readonly round: number;
  /** Counted in before every round. */
  readonly countIn: boolean;
  /** The tempo goes so far towards the goal after every `everyRounds` rounds; 0 where it stays. */
  readonly stepBpm: number;
  readonly everyRounds: number;
  readonly goalBpm: number;
  /** Tempo at which this round began, or that was called since. */
  readonly bpm: number;
}

/** As written, but for the key that was asked for. */
export const freshManner = (semitones: number): Manner => ({
  semitones,
  stopTime: null,
  feel: null,
  writtenFeel: null,
  dynamic: null,
  writtenDynamic: null,
  solo: null,
  trading: null,
  loop: null,
});
