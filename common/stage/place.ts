import type { Leg, RoadBar } from '../form/road.ts';

/** Where the band is. People see barIndex + 1; the pick-up has barIndex −1. */
export interface Place {
  /** Id of the leg. */
  readonly leg: string;
  /** From 1. */
  readonly pass: number;
  /** From 0 in the pass. */
  readonly barIndex: number;
  /** 0 ≤ pulse < pulses of the bar. */
  readonly pulse: number;
}

/** What `locate` answers. `bar` counts the bars played since the take began (see `ComingBar.index`). */
export type Where =
  | { readonly state: 'waiting' }
  | {
      readonly state: 'count';
      /** The bar that follows. */
      readonly place: Place;
      /** Count-in pulses still to come, a real number falling to 0. */
      readonly pulsesToCome: number;
      /** Pulses of the whole count-in, and of one bar of it. */
      readonly countPulses: number;
      readonly barPulses: number;
      readonly bpm: number;
    }
  | { readonly state: 'playing'; readonly place: Place; readonly bar: number; readonly bpm: number }
  | { readonly state: 'held'; readonly place: Place; readonly bar: number; readonly sinceMs: number }
  | { readonly state: 'ended'; readonly atMs: number };

/** A bar on the way: one that was played, is being played, or will be if nothing else is called. */
export interface ComingBar {
  /** 0, 1, 2 … through the take; stable while nothing lands before it. */
  readonly index: number;
  /** Infinity behind a hold that nobody has released. */
  readonly startMs: number;
  /** Pulse 0 of the bar. */
  readonly place: Place;
  readonly bar: RoadBar;
  readonly leg: Leg;
  /** Passes of its leg as known for that bar: a number, or open, or vamp. */
  readonly passes: number | 'open' | 'vamp';
  /** Bars in this pass. */
  readonly passBars: number;
  /** The band is out in this bar: 'hit' on beat one and then silent, or 'out' throughout. */
  readonly out?: 'hit' | 'out';
  /** Bars of the break still to come after this one, where it is out. */
  readonly outBarsLeft?: number;
  /** Stop-time: only beat one is hit. Not where the band is out. */
  readonly stopTime?: boolean;
  /** The feel, where it is another than the head's: 'half-time', 'swing'. */
  readonly feel?: string;
  /** Semitones by which the bar is read higher (−lower) than written; absent for 0. */
  readonly semitones?: number;
  /** Who solos, where a solo order is named. */
  readonly soloist?: string;
  /**
   * Whose turn the bar is, where passes are traded, who is next ('' where nobody trades after it), and the bars of
   * the turn after this one.
   */
  readonly turn?: { readonly now: string; readonly next: string; readonly barsLeft: number };
  /** Where this round of a loop begins and ends (bar indexes), and which round it is, from 1. */
  readonly loop?: { readonly from: number; readonly to: number; readonly round: number };
  /** Ids of the cues that land at its start. */
  readonly lands: readonly string[];
}

/** A cue or a written mark as the stands announce it. */
export interface Announcement {
  /** Id of the cue, or a made-up id of a written mark. */
  readonly id: string;
  readonly kind: string;
  readonly family: 'out' | 'close' | 'more' | 'move' | 'feel';
  /** "Last chorus". */
  readonly name: string;
  /** What follows: "Head out", "2 bars", "letter B"; may be ''. */
  readonly detail: string;
  readonly written: boolean;
  /** Infinity where an open leg, a vamp or a hold stands before it, so that nobody can say when. */
  readonly landsMs: number;
  /** The first place after it; where the take ends there, the last bar, at its end. */
  readonly landsAt: Place;
  /** Bar lines still to cross, the landing's included; 0 in the bar in which it lands; Infinity with `landsMs`. */
  readonly barsToGo: number;
  /** Whole beats still to come before it lands, where barsToGo ≤ 1. */
  readonly beatsToGo: number;
  /** It has landed and is shown for one more beat. */
  readonly landed: boolean;
  readonly canTakeBack: boolean;
  /** Who called it. */
  readonly by?: string;
}
