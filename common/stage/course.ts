import type { Road } from '../form/road.ts';
import type { Cue } from './cue.ts';
import type { Following } from './follow.ts';
import type { Manner } from './manner.ts';
import type { ComingBar, Place } from './place.ts';
import type { Refusal } from './refusal.ts';
import type { Spot } from './spot.ts';
import type { Tapped } from './tapped.ts';
import type { CountTap } from './tapped-count.ts';
import type { Tempo } from './tempo.ts';

/** A cue that somebody calls at an instant of shared time. */
export interface CalledAt {
  readonly id: string;
  readonly cue: Cue;
  readonly by?: string;
  readonly atMs: number;
}

/** A cue that was called and has not landed. */
export interface Pending {
  readonly id: string;
  readonly cue: Cue;
  readonly by?: string;
  /** It lands at the first boundary of its kind at or after this count. */
  readonly fromCount: number;
  /** Id of the leg in which it was called. */
  readonly leg: string;
  /** When its notice is over. While the band holds, a release and a stop land then. */
  readonly fromMs: number;
  /** Id of the last leg of the road by which it was called: a tag is called for that one. */
  readonly lastLeg: string | undefined;
}

/** A count-in: before the first bar of a take, or before a round of a loop. */
export interface CountIn {
  readonly kind: 'count';
  /** Count at its first pulse, and at the downbeat. */
  readonly zero: number;
  readonly end: number;
  readonly barPulses: number;
  /** The bar that follows, and its index through the take. */
  readonly place: Place;
  readonly nextBar: number;
  /** Bar lines of the count-ins before this one. */
  readonly countLines: number;
  /** Ids of cues that have landed and begin with the bar that follows. */
  readonly lands: readonly string[];
}

/** A bar on the count axis. `zero` is the count of its pulse 0, even where it was entered later. */
export interface BarSpan {
  readonly kind: 'bar';
  readonly zero: number;
  readonly end: number;
  readonly coming: ComingBar;
  /** Bar lines of the count-ins before it. */
  readonly countLines: number;
}

export type Span = CountIn | BarSpan;

/** From `fromMs` on the band is in this span, at this tempo; without a span the take has ended. */
export interface Piece {
  readonly fromMs: number;
  readonly span: Span | null;
  readonly tempo: Tempo | null;
}

/** What became of a cue, or where a mark of the chart acts. */
export interface Landing {
  readonly id: string;
  readonly cue: Cue;
  readonly by?: string;
  /** Why it was dropped; absent where it landed. */
  readonly refused?: Refusal;
  readonly count: number;
  readonly ms: number;
  readonly place: Place;
  /** Index through the take of the bar in which it lands, or would be if the take did not end there. */
  readonly bar: number;
  /** Bar lines from the first one of the take to it, those of count-ins included. */
  readonly line: number;
}

/** What a walk leaves behind, each list in order of time. Only ever appended to. */
export interface Log {
  readonly pieces: Piece[];
  readonly bars: ComingBar[];
  readonly landings: Landing[];
  readonly roads: { readonly fromMs: number; readonly road: Road }[];
  readonly manners: { readonly fromMs: number; readonly manner: Manner }[];
  readonly taps: Tapped[];
}

export const emptyLog = (): Log => ({ pieces: [], bars: [], landings: [], roads: [], manners: [], taps: [] });

/** How far a log had come at some moment. */
export type LogLengths = { readonly [List in keyof Log]: number };

export const lengthsOf = ({ pieces, bars, landings, roads, manners, taps }: Log): LogLengths => ({
  pieces: pieces.length,
  bars: bars.length,
  landings: landings.length,
  roads: roads.length,
  manners: manners.length,
  taps: taps.length,
});

/** A copy of the log as it was at that moment. */
export const logUpTo = ({ pieces, bars, landings, roads, manners, taps }: Log, lengths: LogLengths): Log => ({
  pieces: pieces.slice(0, lengths.pieces),
  bars: bars.slice(0, lengths.bars),
  landings: landings.slice(0, lengths.landings),
  roads: roads.slice(0, lengths.roads),
  manners: manners.slice(0, lengths.manners),
  taps: taps.slice(0, lengths.taps),
});

/**
 * A take at one moment: all that the way on depends on. The walk sets its fields and writes to its log; what a
 * field holds is never changed in place, so that a flat copy is a copy. Whoever wants to look ahead walks one.
 */
export interface Course {
  log: Log;
  road: Road;
  state: 'waiting' | 'rolling' | 'ended';
  /** Tempo at which a start counts in; asked for while waiting, or the road's. */
  startBpm: number;
  startBpmCalled: boolean;
  /** Semitones by which the tune is read higher than written, as asked for before it begins. */
  startSemitones: number;
  manner: Manner;
  /** Taps while waiting, of which a count-in may be made. */
  counting: readonly CountTap[];
  /** The rest is only looked at while rolling. */
  spot: Spot | null;
  span: Span | null;
  tempo: Tempo | null;
  /** Where `a tempo` goes back to: the tempo before a written rit. or accel.; null where there was none. */
  aTempoBpm: number | null;
  /** What the taps have told; null where nobody has tapped. */
  following: Following | null;
  /** Count up to which everything has been done. */
  count: number;
  /** Bars of the break still to come, the next bar included. */
  outBars: number;
  /** Beat one of the next bar is hit before the band is out. */
  outHit: boolean;
  /** Bars played so far, and bar lines counted in. */
  bars: number;
  countLines: number;
  pending: readonly Pending[];
  /** As it was just before the last two lines, the last first; none before a here. */
  beforeLines: readonly Course[];
  /** What was called since the last line. */
  heard: readonly CalledAt[];
  /** Where the take was stopped; null where it was not. */
  stopped: Stopped | null;
}

/** A stop that has landed. */
export interface Stopped {
  /** The course that goes on as if it had not been called. */
  readonly onward: Course;
  readonly place: Place;
  /** Until then somebody may resume. */
  readonly untilMs: number;
}

/** Nobody ever writes to it: it stands for the log that a kept course has left behind. */
export const NO_LOG = emptyLog();

/** The band holds: nothing but a release, a stop or here goes on from there. */
export const isHeld = ({ tempo }: Pick<Course, 'tempo'>): boolean => tempo?.still === true;

/** A course on which one can walk on without touching the first; its log begins empty. */
export const copyCourse = (course: Course, log: Log = emptyLog()): Course => ({ ...course, log });
