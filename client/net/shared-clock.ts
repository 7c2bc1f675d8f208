import { addExchange, ignoringPingsBefore, newEstimate, readEstimate } from '../../common/clock/estimate.ts';
import { roundTripMs } from '../../common/clock/exchange.ts';
import { afterPing, burst, type PingPlan } from '../../common/clock/ping-plan.ts';
import { coast, type Shown, showFrom, slew } from '../../common/clock/slew.ts';
import { type LocalMs, localMs, type SharedMs, sharedMs } from '../../common/units.ts';
import type { ClockState } from '../state/link-state.ts';
import { type Observable, settable } from '../state/observable.ts';
import { type Look, sleptBetween } from './slept-between.ts';

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
  /** The best estimate for another moment of this tablet's clock, not slewed; null before the first pong. */
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

const READY_ERROR_MS = 5;
const READY_PONGS = 10;
/** While nothing else changes, how exact the clock is, is told at most this often, ms. */
const TOLD_EVERY_MS = 1000;

/** The clock of one tablet: asks the relay for the time, and tells shared time from the answers. */
export const createSharedClock = <Timer>(parts: SharedClockParts<Timer>): SharedClock => {
  const { wallNow, send, setTimer, clearTimer } = parts;
  const clock = settable<ClockState>({ ready: false, errorMs: null, roundTripMs: null });
  const reseeks = new Set<(byMs: number) => void>();
  const local = () => localMs(parts.localNow());
  const look = (waitMs: number): Look => ({ localMs: parts.localNow(), wallMs: wallNow(), waitMs });

  let estimate = newEstimate();
  let epoch: string | null = null;
  let roundTrip: number | null = null;
  /** Woken, with the relay still there: what is known is doubted until it has answered. */
  let isDoubtful = false;
  /** null until the clock is ready for the first time. */
  let shown: Shown | null = null;
  let isConnected = false;
  let pingsSent = 0;
  let plan: PingPlan = burst;
  let lastLook = look(0);
  let toldAtMs = Number.NEGATIVE_INFINITY;
  let timer: Timer | null = null;

  const tell = (): void => {
    const nowMs = local();
    const reading = readEstimate(estimate, nowMs);
    const isGood =
      reading !== null && (reading.errorMs <= READY_ERROR_MS || reading.exchanges >= READY_PONGS);
    const ready = isGood && !isDoubtful;
    if (clock.get().ready === ready && nowMs - toldAtMs < TOLD_EVERY_MS) return;
    toldAtMs = nowMs;
    clock.set({ ready, errorMs: reading?.errorMs ?? null, roundTripMs: roundTrip });
  };

  const forget = (ignoreBefore: LocalMs | null): void => {
    estimate = newEstimate(ignoreBefore);
    plan = burst;
  };

  /** Whether the tablet has slept since it last looked; if so, what that means for what it knows. */
  const noticeSleep = (): boolean => {
    const slept = sleptBetween(lastLook, look(0));
    lastLook = look(lastLook.waitMs);
    if (slept === 'awake') return false;
    if (slept === 'frozen') forget(local());
    else estimate = ignoringPingsBefore(estimate, local());
    plan = burst;
    isDoubtful = isConnected;
    tell();
    return true;
  };

  /** Pings if there is somebody to ask, and comes back when the plan says so. */
  const tick = (): void => {
    if (timer !== null) clearTimer(timer);
    noticeSleep();
    if (isConnected) send({ t: 'ping', n: ++pingsSent, t0: local() });
    const next = afterPing(isConnected ? plan : { burstLeft: 0 });
    if (isConnected) plan = next.plan;
    tell();
    lastLook = look(next.waitMs);
    timer = setTimer(tick, next.waitMs);
  };

  const askAtOnce = (): void => {
    plan = burst;
    tick();
  };

  tick();

  return {
    sharedNow: () => {
      const now = local();
      const reading = readEstimate(estimate, now);
      const { ready } = clock.get();
      if (shown === null) {
        // The relay's time reads as a date: until it is known, the tablet's own date is the best guess.
        if (!ready || reading === null) return reading?.sharedMs ?? sharedMs(wallNow());
        shown = showFrom(now, reading.sharedMs);
        return shown.sharedMs;
      }
      shown = ready && reading !== null ? slew(shown, now, reading.sharedMs) : coast(shown, now);
      const { reseekMs } = shown;
      if (reseekMs !== 0) for (const reseek of [...reseeks]) reseek(reseekMs);
      return shown.sharedMs;
    },
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
      // Nobody will answer: better to go on with what is known than to stop.
      isDoubtful = false;
      tell();
    },
    receive: (pong, t3) => {
      // An answer from before a sleep can be the first to be heard after it.
      const slept = noticeSleep();
      if (epoch !== null && pong.epoch !== epoch) forget(null);
      epoch = pong.epoch;
      const before = estimate;
      const exchange = {
        t0: localMs(pong.t0),
        t1: sharedMs(pong.t1),
        t2: sharedMs(pong.t2),
        t3: localMs(t3),
      };
      estimate = addExchange(estimate, exchange);
      if (estimate !== before) {
        isDoubtful = false;
        roundTrip = roundTripMs(exchange);
      }
      tell();
      const jumped = estimate.freshStarts > before.freshStarts;
      if (isConnected && (slept || jumped)) askAtOnce();
    },
    woke: () => {
      noticeSleep();
      if (isConnected) askAtOnce();
    },
    close: () => {
      isConnected = false;
      if (timer !== null) clearTimer(timer);
      timer = null;
    },
  };
};
