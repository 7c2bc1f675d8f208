import type { LocalMs, SharedMs } from '../../common/units.ts';
import type { ClockState } from '../state/board.ts';
import type { Observable } from '../state/observable.ts';

/** What the tablet's clock needs from outside. In a browser: `performance.now`, `Date.now`, `setTimeout`. */
export interface SharedClockParts<Timer> {
  /** ms, monotonic while the tablet is awake; may stop while it sleeps. */
  readonly localNow: () => number;
  /** ms since 1970; may step, goes on while the tablet sleeps. Only used to notice sleeping. */
  readonly wallNow: () => number;
  /** Sends a ping over the live socket if it is open; false = could not be sent. */
  readonly send: (ping: Ping) => boolean;
  readonly setTimer: (run: () => void, afterMs: number) => Timer;
  readonly clearTimer: (timer: Timer) => void;
}

/** To the relay. `t0` is local. */
export interface Ping {
  readonly t: 'ping';
  readonly n: number;
  readonly t0: number;
}

/** From the relay, already checked against the schema. `t1` and `t2` are shared. */
export interface Pong {
  readonly t: 'pong';
  readonly n: number;
  readonly t0: number;
  readonly t1: number;
  readonly t2: number;
  readonly epoch: string;
}

export interface SharedClock {
  /** Shared time now, slewed: never runs backwards save at a re-seek. Cheap: may be asked every frame. */
  readonly sharedNow: () => SharedMs;
  /** The best estimate for another moment of this tablet's clock, not slewed: for stamping a touch or a sound. null before the first pong. */
  readonly readAt: (local: LocalMs) => { readonly sharedMs: SharedMs; readonly errorMs: number } | null;
  readonly clock: Observable<ClockState>;
  /** Calls back when shown time has jumped by more than two seconds, until the returned function is called. */
  readonly onReseek: (reseek: (byMs: number) => void) => () => void;
  /** The live socket is open: pings begin, ten at once. */
  readonly connected: () => void;
  /** The live socket is gone: pings end, time coasts on what is known. */
  readonly disconnected: () => void;
  /** A pong is here; `t3` is `localNow()` taken first thing in the message handler. */
  readonly receive: (pong: Pong, t3: number) => void;
  /** The tablet may have slept (`visibilitychange` to visible, `pageshow`, `resume`): asks anew at once. */
  readonly woke: () => void;
  /** The relay has re-anchored the stage to its new epoch: stop coasting on the old one. */
  readonly anchored: () => void;
  readonly close: () => void;
}

export type CreateSharedClock = <Timer>(parts: SharedClockParts<Timer>) => SharedClock;
