import type * as Y from 'yjs';
import { markedAt, watchPlaces } from './chart-places.ts';
import { type Observable, settable } from './observable.ts';

/** Who changed a place, and when, on this tablet's own clock. */
export interface FreshMark {
  readonly name: string;
  readonly colour: number;
  readonly atMs: number;
}

export interface FreshMarks extends Observable<ReadonlyMap<string, FreshMark>> {
  readonly close: () => void;
}

/** A mark stays for 20 s. */
const FRESH_MS = 20_000;

/** The documents' client ids that wrote in a transaction. */
const writersOf = (transaction: Y.Transaction): number[] =>
  [...transaction.afterState]
    .filter(([client, clock]) => (transaction.beforeState.get(client) ?? 0) < clock)
    .map(([client]) => client);

/**
 * What somebody else has changed in a chart in the last 20 s: bars by their ids, the rest by their places.
 * @param doc the chart's document
 * @param isNews whether a transaction is somebody's change now, not the catching up after an absence
 * @param whoWrote the person behind a client id, where known
 * @param after calls once after so many ms
 */
export const freshMarks = (
  doc: Y.Doc,
  isNews: (transaction: Y.Transaction) => boolean,
  whoWrote: (client: number) => { readonly name: string; readonly colour: number } | null,
  nowMs: () => number,
  after: (ms: number, run: () => void) => () => void,
): FreshMarks => {
  const marks = settable<ReadonlyMap<string, FreshMark>>(new Map());
  let stopTimer = () => {};

  const sweep = () => {
    const left = new Map([...marks.get()].filter(([, mark]) => nowMs() - mark.atMs < FRESH_MS));
    if (left.size !== marks.get().size) marks.set(left);
    stopTimer();
    const oldest = Math.min(...[...left.values()].map((mark) => mark.atMs));
    if (left.size > 0) stopTimer = after(Math.max(50, oldest + FRESH_MS - nowMs()), sweep);
  };
  const changed = (places: readonly string[], transaction: Y.Transaction) => {
    if (!isNews(transaction)) return;
    const writer = writersOf(transaction)
      .map(whoWrote)
      .find((who) => who !== null);
    if (!writer) return;
    const next = new Map(marks.get());
    for (const place of places) next.set(markedAt(place), { ...writer, atMs: nowMs() });
    marks.set(next);
    sweep();
  };
  const stopWatching = watchPlaces(doc, changed);
  return {
    get: marks.get,
    subscribe: marks.subscribe,
    close: () => {
      stopTimer();
      stopWatching();
    },
  };
};
