import { addExchange, newEstimate, readEstimate } from '../../common/clock/estimate.ts';
import { roundTripMs } from '../../common/clock/exchange.ts';
import { afterPing, burst, type PingPlan } from '../../common/clock/ping-plan.ts';
import { coast, type Shown, showFrom, slew } from '../../common/clock/slew.ts';
import { type LocalMs, localMs, type SharedMs, sharedMs } from '../../common/units.ts';
import type { ClockState } from '../state/board.ts';
import { type Observable, settable } from '../state/observable.ts';

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
  readonly close: () => void;
}

/** A timer that is late by more than this means that the tablet slept, or that its page was stopped, ms. */
const SLEPT_MS = 3_000;
/** Wall and local clock may part by this much between two pings before the tablet is taken to have slept, ms. */
const PARTED_MS = 1_000;
const READY_ERROR_MS = 5;
const READY_PONGS = 10;
/** How exact the clock is, is told at most this often, ms. */
const TOLD_EVERY_MS = 1_000;

const UNKNOWN: ClockState = { ready: false, errorMs: null, roundTripMs: null };

/** The clock of one tablet: asks the relay for the time, and tells shared time from the answers. */
export const createSharedClock = <Timer>(parts: SharedClockParts<Timer>): SharedClock => {
  const { localNow, wallNow, send, setTimer, clearTimer } = parts;
  const clock = settable<ClockState>(UNKNOWN);
  const reseeks = new Set<(byMs: number) => void>();
  let estimate = newEstimate();
  let epoch: string | null = null;
  let pongs = 0;
  let shown: Shown | null = null;
  let plan: PingPlan = burst;
  let timer: Timer | null = null;
  let isConnected = false;
  let asked = 0;
  let lastTick = { local: localNow(), wall: wallNow(), waitMs: 0 };
  let toldAt = Number.NEGATIVE_INFINITY;

  const local = () => localMs(localNow());

  const tell = (state: ClockState, atMs: number): void => {
    const before = clock.get();
    if (before.ready === state.ready && atMs - toldAt < TOLD_EVERY_MS) return;
    toldAt = atMs;
    clock.set(state);
  };

  /** What is known so far no longer holds, or may not: asks anew at once. */
  const startAfresh = (ignoreBefore: LocalMs): void => {
    estimate = newEstimate(ignoreBefore);
    pongs = 0;
    tell({ ...clock.get(), ready: false }, ignoreBefore);
    if (isConnected) askAtOnce();
  };

  const askAtOnce = (): void => {
    plan = burst;
    if (timer !== null) clearTimer(timer);
    ask();
  };

  const ask = (): void => {
    timer = null;
    if (!isConnected) return;
    asked += 1;
    send({ t: 'ping', n: asked, t0: localNow() });
    const next = afterPing(plan);
    plan = next.plan;
    lastTick = { local: localNow(), wall: wallNow(), waitMs: next.waitMs };
    timer = setTimer(tick, next.waitMs);
  };

  const tick = (): void => {
    timer = null;
    if (hasSlept()) startAfresh(local());
    else ask();
  };

  const hasSlept = (): boolean => {
    const localPassed = localNow() - lastTick.local;
    const wallPassed = wallNow() - lastTick.wall;
    return localPassed - lastTick.waitMs > SLEPT_MS || Math.abs(wallPassed - localPassed) > PARTED_MS;
  };

  const sharedNow = (): SharedMs => {
    const now = local();
    const reading = readEstimate(estimate, now);
    if (shown === null) {
      if (reading === null) return sharedMs(now);
      shown = showFrom(now, reading.sharedMs);
      return shown.sharedMs;
    }
    // Until a fresh estimate is good enough, time goes on by the tablet's own clock.
    shown = reading === null || !clock.get().ready ? coast(shown, now) : slew(shown, now, reading.sharedMs);
    if (shown.reseekMs !== 0) for (const reseek of [...reseeks]) reseek(shown.reseekMs);
    return shown.sharedMs;
  };

  return {
    sharedNow,
    readAt: (at) => readEstimate(estimate, at),
    clock: { get: clock.get, subscribe: clock.subscribe },
    onReseek: (reseek) => {
      reseeks.add(reseek);
      return () => {
        reseeks.delete(reseek);
      };
    },
    connected: () => {
      isConnected = true;
      askAtOnce();
    },
    disconnected: () => {
      isConnected = false;
      if (timer !== null) clearTimer(timer);
      timer = null;
    },
    receive: (pong, t3) => {
      if (epoch !== null && pong.epoch !== epoch) estimate = newEstimate();
      if (pong.epoch !== epoch) pongs = 0;
      epoch = pong.epoch;
      const exchange = {
        t0: localMs(pong.t0),
        t1: sharedMs(pong.t1),
        t2: sharedMs(pong.t2),
        t3: localMs(t3),
      };
      const before = estimate;
      estimate = addExchange(estimate, exchange);
      if (estimate === before) return;
      pongs += 1;
      const jumped = estimate.freshStarts > before.freshStarts;
      if (jumped) pongs = 1;
      const reading = readEstimate(estimate, exchange.t3);
      if (reading === null) return;
      const ready = reading.errorMs <= READY_ERROR_MS || pongs >= READY_PONGS;
      // Nothing was on the stands' clock yet: it begins where the estimate is, not where it was.
      if (ready && !clock.get().ready && toldAt === Number.NEGATIVE_INFINITY) shown = null;
      tell({ ready, errorMs: reading.errorMs, roundTripMs: roundTripMs(exchange) }, t3);
      if (jumped) askAtOnce();
    },
    woke: () => {
      // Coming back to a page that was only hidden for a moment needs no doubt.
      if (hasSlept()) startAfresh(local());
      else if (isConnected) askAtOnce();
    },
    close: () => {
      isConnected = false;
      if (timer !== null) clearTimer(timer);
      timer = null;
    },
  };
};
