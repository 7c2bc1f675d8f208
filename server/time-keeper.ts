import type { MachineClock } from './machine-clock.ts';
import { goOnFrom, type SharedTime, sharedTimeOf, type TimeMark } from './shared-time.ts';
import type { Store } from './store.ts';

/** Keeps shared time running over restarts, by marks in the store. */
export interface TimeKeeper {
  readonly time: SharedTime;
  /** Writes a mark now. */
  readonly keep: () => void;
  /** Once a second: writes a mark now and then. */
  readonly turn: () => void;
}

const NAME = 'time';
const TURNS_PER_MARK = 60;

const isMark = (value: unknown): value is TimeMark => {
  if (typeof value !== 'object' || value === null) return false;
  const { epoch, offsetMs, sharedMs, wallMs } = value as Record<string, unknown>;
  return typeof epoch === 'string' && [offsetMs, sharedMs, wallMs].every((one) => Number.isFinite(one));
};

export const openTimeKeeper = (store: Store, clock: MachineClock): TimeKeeper => {
  const read = store.database.prepare('select value from meta where name = ?').raw(true);
  const write = store.database.prepare('insert or replace into meta (name, value) values (?, ?)');
  const [row] = read.all(NAME) as [string][];
  const kept: unknown = row === undefined ? null : JSON.parse(row[0]);
  const mark = goOnFrom(isMark(kept) ? kept : null, clock.epoch, clock.monotonicMs(), clock.wallMs());
  const time = sharedTimeOf(mark, clock.monotonicMs);
  const keep = () => {
    const now: TimeMark = { ...mark, sharedMs: time.now(), wallMs: clock.wallMs() };
    store.transaction(() => write.run(NAME, JSON.stringify(now)));
  };
  let turns = 0;
  keep();
  return {
    time,
    keep,
    turn: () => {
      if (++turns % TURNS_PER_MARK === 0) keep();
    },
  };
};
