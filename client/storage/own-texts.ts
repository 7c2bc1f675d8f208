import { readJson, type TextStore, writeJson } from './stored-json.ts';

/** What somebody typed at a place, and when, in ms since 1970. */
export interface OwnText {
  readonly text: string;
  readonly atMs: number;
}

/** What one member typed into a chart on this tablet, by the name of the place. Outlives the page. */
export interface OwnTexts {
  readonly get: () => ReadonlyMap<string, OwnText>;
  /** Keeps what was typed at a place; null forgets it. */
  readonly set: (place: string, text: string | null) => void;
}

/** A tablet that was away since the last rehearsal may still write over it, a week later. */
const KEPT_MS = 8 * 24 * 3_600_000;

const record = (value: unknown): Record<string, unknown> =>
  typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : {};

export const openOwnTexts = (
  store: TextStore,
  member: string,
  chart: string,
  nowMs: () => number,
): OwnTexts => {
  const name = `tillcue.typed.${member}`;
  const read = (): Map<string, Map<string, OwnText>> => {
    const charts = Object.entries(record(readJson(store, name))).map(([id, bars]) => {
      const sound = Object.entries(record(bars)).flatMap(([bar, kept]): [string, OwnText][] => {
        const { text, atMs } = record(kept);
        const isSound = typeof text === 'string' && typeof atMs === 'number' && nowMs() - atMs < KEPT_MS;
        return isSound ? [[bar, { text, atMs }]] : [];
      });
      return [id, new Map(sound)] as const;
    });
    return new Map(charts.filter(([, bars]) => bars.size > 0));
  };
  let own = read().get(chart) ?? new Map<string, OwnText>();
  return {
    get: () => own,
    set: (place, text) => {
      const next = new Map(own);
      if (text !== null) next.set(place, { text, atMs: nowMs() });
      else if (!next.delete(place)) return;
      own = next;
      const charts = read().set(chart, next);
      const written = [...charts].map(([id, bars]) => [id, Object.fromEntries(bars)] as const);
      writeJson(store, name, Object.fromEntries(written));
    },
  };
};
