import type { Take } from '../common/stage/cue.ts';
import type { Store } from './store.ts';

/** Takes that are over, each a row of its own, so that the stage document stays small. */
export interface FinishedTakes {
  /** Keeps a take; the same take kept twice is kept once. */
  readonly keep: (band: string, take: Take) => void;
  /** Oldest first. */
  readonly of: (band: string) => readonly Take[];
}

export const finishedTakes = (store: Store): FinishedTakes => {
  const insert = store.database.prepare(
    'insert or replace into takes (band, id, chart, called_ms, data) values (?, ?, ?, ?, ?)',
  );
  const all = store.database
    .prepare('select data from takes where band = ? order by called_ms, id')
    .raw(true);
  return {
    keep: (band, take) => {
      const calledMs = take.cues[0]?.calledAtMs ?? 0;
      store.transaction(() => insert.run(band, take.id, take.chart, calledMs, JSON.stringify(take)));
    },
    of: (band) => (all.all(band) as [string][]).map(([data]) => JSON.parse(data) as Take),
  };
};
