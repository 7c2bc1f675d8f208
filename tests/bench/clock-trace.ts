import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Exchange } from '../../common/clock/exchange.ts';
import { localMs, sharedMs } from '../../common/units.ts';

/** A tablet's true clock as a function of relay time; the shape of the recordings' `clients[i].clock`. */
export interface TrueClock {
  readonly offsetMs: number;
  readonly skewPpm: number;
  readonly wanderAmpMs: number;
  readonly wanderPeriodMs: number;
  /** The clock stands still between these relay times. */
  readonly freezeMs?: readonly [number, number];
}

/** One tablet's part of a recording: its exchanges in order of arrival, ms. */
export interface TabletTrace {
  readonly clock: TrueClock;
  readonly exchanges: readonly Exchange[];
  /** Relay times between which the tablet was stopped. */
  readonly asleepMs: readonly [number, number] | null;
}

export interface Trace {
  readonly condition: string;
  readonly durationMs: number;
  readonly tablets: readonly TabletTrace[];
}

/** What the tablet's clock really shows at relay time `relayMs`. */
export const clockAt = (clock: TrueClock, relayMs: number): number => {
  let running = relayMs;
  if (clock.freezeMs !== undefined) {
    const [from, to] = clock.freezeMs;
    if (relayMs >= to) running = relayMs - (to - from);
    else if (relayMs > from) running = from;
  }
  const wander = clock.wanderAmpMs * Math.sin((2 * Math.PI * running) / clock.wanderPeriodMs);
  return clock.offsetMs + (1 + clock.skewPpm * 1e-6) * running + wander;
};

/** What a browser that rounds its clock down to whole multiples of `grainMs` shows; 0 = it doesn't. */
export const coarse = (localMs: number, grainMs: number): number =>
  grainMs === 0 ? localMs : Math.floor(localMs / grainMs + 1e-9) * grainMs;

/**
 * The exchanges a tablet would have had that asks as `common/clock/ping-plan` does: ten in a burst at the
 * beginning and after every gap of more than 3 s, then one a second.
 */
export const thinned = (exchanges: readonly Exchange[]): Exchange[] => {
  const kept: Exchange[] = [];
  let burst = 0;
  let keptAtMs = Number.NEGATIVE_INFINITY;
  let lastAskedMs = Number.NEGATIVE_INFINITY;
  for (const exchange of [...exchanges].sort((a, b) => a.t0 - b.t0)) {
    if (exchange.t1 - lastAskedMs > 3000) burst = 10;
    lastAskedMs = exchange.t1;
    if (burst <= 0 && exchange.t0 - keptAtMs < 900) continue;
    burst -= 1;
    keptAtMs = exchange.t0;
    kept.push(exchange);
  }
  return kept.sort((a, b) => a.t3 - b.t3);
};

interface RecordedTrace {
  readonly condition: string;
  readonly durationMs: number;
  readonly eventsMs: readonly (readonly [string, number])[];
  readonly clients: readonly {
    readonly clock: TrueClock;
    readonly rows: readonly (readonly [number, number, number, number])[];
  }[];
}

/** Reads every recording (`*.json`) of a folder. Times in the files are whole microseconds. */
export const readTraces = (folder: string): Trace[] =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.json'))
    .sort()
    .map((name) => {
      const recorded = JSON.parse(readFileSync(join(folder, name), 'utf8')) as RecordedTrace;
      const stopped = recorded.eventsMs.find(([what]) => what === 'stop')?.[1];
      const went = recorded.eventsMs.find(([what]) => what === 'cont')?.[1];
      return {
        condition: recorded.condition,
        durationMs: recorded.durationMs,
        tablets: recorded.clients.map(({ clock, rows }, i) => ({
          clock,
          asleepMs: stopped !== undefined && went !== undefined && i < 4 ? [stopped, went] : null,
          exchanges: rows.map(([t0, t1, t2, t3]) => ({
            t0: localMs(t0 / 1000),
            t1: sharedMs(t1 / 1000),
            t2: sharedMs(t2 / 1000),
            t3: localMs(t3 / 1000),
          })),
        })),
      } satisfies Trace;
    });
