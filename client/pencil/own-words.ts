import type * as Y from 'yjs';
import type { ChartHandle } from '../state/chart-handle.ts';
import { madeAt, markedAt, valueAt, watchPlaces } from '../state/chart-places.ts';
import { type Observable, settable } from '../state/observable.ts';
import type { OwnTexts } from '../storage/own-texts.ts';
import { isTypedPlace, wordsAt } from './words-at.ts';

/** A place where one has written, and that holds now what somebody else wrote. */
export interface WrittenOver {
  /** See `watchPlaces`. */
  readonly place: string;
  /** 'bar 2', 'tempo'. */
  readonly called: string;
  /** One's own text. */
  readonly text: string;
  /** Name of who wrote over it; null where nobody knows: it came in after an absence. */
  readonly who: string | null;
}

/** What one wrote oneself and others wrote over, until it is written again, put back or let go. */
export interface OwnWords extends Observable<readonly WrittenOver[]> {
  readonly putBack: (places: readonly string[]) => void;
  readonly letGo: (places: readonly string[]) => void;
  /** Follows the chart; to be called once. Gives what ends it. */
  readonly watch: () => () => void;
}

/** Whoever writes later than this after another, while both are here, has read it and means it. */
const TOGETHER_MS = 60_000;

/**
 * What one has typed is compared with what the chart holds: so it is found whether the other text came while one
 * looked, after an hour without the relay, or when the chart is opened the next day.
 */
export const openOwnWords = (handle: ChartHandle, own: OwnTexts, nowMs: () => number): OwnWords => {
  const { doc, origin } = handle;
  const over = settable<readonly WrittenOver[]>([]);

  /** @param live it has come while one was here; else one could not have seen it */
  const compare = (live: boolean) => {
    const chart = handle.chart.get()?.chart;
    if (!chart) return;
    const known = new Map(over.get().map((one) => [one.place, one.who]));
    const fresh = handle.fresh.get();
    const next = [...own.get()].flatMap(([place, { text, atMs }]): WrittenOver[] => {
      const at = wordsAt(chart, place);
      if (at === null || at.text === text) return [];
      const writer = fresh.get(markedAt(place))?.name;
      if (live && !known.has(place) && writer !== undefined && nowMs() - atMs > TOGETHER_MS) {
        own.set(place, null);
        return [];
      }
      return [{ place, called: at.called, text, who: writer ?? known.get(place) ?? null }];
    });
    if (next.length > 0 || over.get().length > 0) over.set(next);
  };
  const noticeOwn = (places: readonly string[], transaction: Y.Transaction) => {
    if (!transaction.local) return;
    // Bars are made by typing; sections and legs are made with a name that nobody has typed.
    const isMade = (place: string) => !place.startsWith('bars.') && places.includes(madeAt(place));
    for (const place of places.filter((one) => isTypedPlace(one) && !isMade(one))) {
      const text = valueAt(doc, place);
      // A step taken back is no typing; what it leaves needs no keeping.
      const isTyped = transaction.origin === origin && typeof text === 'string' && text !== '';
      own.set(place, isTyped ? text : null);
    }
  };
  return {
    get: over.get,
    subscribe: over.subscribe,
    putBack: (places) =>
      doc.transact(() => {
        const chart = handle.chart.get()?.chart;
        for (const { place, text } of over.get()) {
          if (chart && places.includes(place)) wordsAt(chart, place)?.write(doc, text, origin);
        }
      }, origin),
    letGo: (places) => {
      for (const place of places) own.set(place, null);
      compare(false);
    },
    watch: () => {
      compare(false);
      const stopNoticing = watchPlaces(doc, noticeOwn);
      const stop = handle.chart.subscribe(() => compare(true));
      return () => {
        stopNoticing();
        stop();
      };
    },
  };
};
