import type * as Y from 'yjs';
import { barsOf } from '../../common/document/chart-document.ts';
import { setBarText } from '../../common/document/edit-chart.ts';
import type { ChartHandle } from '../state/chart-handle.ts';
import { type Observable, settable } from '../state/observable.ts';
import type { OwnTexts } from '../storage/own-texts.ts';
import { barAt, numberOf } from './neighbours.ts';

/** A bar that one has written and that holds now what somebody else wrote. */
export interface WrittenOver {
  readonly bar: string;
  /** From 1. */
  readonly number: number;
  /** One's own text. */
  readonly text: string;
  /** Name of who wrote over it; null where nobody knows: it came in after an absence. */
  readonly who: string | null;
}

/** The bars of one's own that others wrote over, until one of them is written again, put back or let go. */
export interface OwnBars extends Observable<readonly WrittenOver[]> {
  readonly putBack: (bars: readonly string[]) => void;
  readonly letGo: (bars: readonly string[]) => void;
  /** Follows the chart; to be called once. Gives what ends it. */
  readonly watch: () => () => void;
}

/** Whoever writes a bar later than this after another, while both are here, has read it and means it. */
const TOGETHER_MS = 60_000;

/** Bars whose text a change has touched, those that it has made among them. */
const textsTouched = (events: readonly Y.YEvent<Y.AbstractType<unknown>>[]): string[] =>
  events.flatMap((event) => {
    const [bar] = event.path;
    if (bar === undefined) return [...event.changes.keys.keys()];
    return event.changes.keys.has('text') ? [String(bar)] : [];
  });

/**
 * What one has typed is compared with what the bars hold: so it is found whether the other text came while one
 * looked, after an hour without the relay, or when the chart is opened the next day.
 */
export const openOwnBars = (handle: ChartHandle, own: OwnTexts, nowMs: () => number): OwnBars => {
  const { doc, origin } = handle;
  const bars = barsOf(doc);
  const over = settable<readonly WrittenOver[]>([]);

  /** @param live it has come while one was here; else one could not have seen it */
  const compare = (live: boolean) => {
    const chart = handle.chart.get()?.chart;
    if (!chart) return;
    const known = new Map(over.get().map((one) => [one.bar, one.who]));
    const next = [...own.get()].flatMap(([bar, { text, atMs }]): WrittenOver[] => {
      const at = barAt(chart, bar);
      if (at === null || at.bar.text === text) return [];
      const writer = handle.fresh.get().get(bar)?.name;
      if (live && !known.has(bar) && writer !== undefined && nowMs() - atMs > TOGETHER_MS) {
        own.set(bar, null);
        return [];
      }
      const who = writer ?? known.get(bar) ?? null;
      return [{ bar, number: numberOf(chart, bar), text, who }];
    });
    if (next.length > 0 || over.get().length > 0) over.set(next);
  };
  const noticeOwn = (
    events: readonly Y.YEvent<Y.AbstractType<unknown>>[],
    { local, ...by }: Y.Transaction,
  ) => {
    if (!local) return;
    for (const bar of textsTouched(events)) {
      const entry = bars.get(bar) as Y.Map<unknown> | undefined;
      const text = entry?.get('text');
      // A step taken back is no typing; what it leaves needs no keeping.
      const isTyped = by.origin === origin && typeof text === 'string' && text !== '';
      own.set(bar, isTyped ? text : null);
    }
  };
  return {
    get: over.get,
    subscribe: over.subscribe,
    putBack: (ids) =>
      doc.transact(() => {
        for (const { bar, text } of over.get()) if (ids.includes(bar)) setBarText(doc, bar, text, origin);
      }, origin),
    letGo: (ids) => {
      for (const bar of ids) own.set(bar, null);
      compare(false);
    },
    watch: () => {
      compare(false);
      bars.observeDeep(noticeOwn);
      const stop = handle.chart.subscribe(() => compare(true));
      return () => {
        bars.unobserveDeep(noticeOwn);
        stop();
      };
    },
  };
};
