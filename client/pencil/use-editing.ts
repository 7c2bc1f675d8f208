import { useCallback, useState } from 'react';
import type { Chart } from '../../common/chart/chart.ts';
import { addBars, setBarText } from '../../common/document/edit-chart.ts';
import type { ChartHandle } from '../state/board.ts';
import { makeId } from '../state/make-id.ts';
import { barBeside, barsBetween, barsInOrder } from './neighbours.ts';
import { splitBars } from './split-bars.ts';

/** Which bars are chosen, and what is being typed into one of them. */
export interface Editing {
  /** The bar that was touched last. */
  readonly bar: string | null;
  /** All that are chosen, in the order of the chart. */
  readonly chosen: readonly string[];
  /** The text being typed; null while nothing is typed. */
  readonly draft: string | null;
  readonly choose: (bar: string | null, extend?: boolean) => void;
  readonly type: (draft: string) => void;
  /** Begins to type into a bar. */
  readonly open: (bar: string) => void;
  /** Writes what was typed; with `then` goes on to the bar so many bars on. */
  readonly write: (then?: number) => void;
  /** Forgets what was typed. */
  readonly drop: () => void;
}

/** A bar is written when the person presses Enter or leaves it, never half-typed. */
export const useEditing = (handle: ChartHandle, chart: Chart): Editing => {
  const [bar, setBar] = useState<string | null>(null);
  const [from, setFrom] = useState<string | null>(null);
  const [draft, setDraft] = useState<string | null>(null);
  const textOf = useCallback(
    (id: string) => barsInOrder(chart).find((at) => at.bar.id === id)?.bar.text ?? '',
    [chart],
  );

  const commit = (): string | null => {
    if (bar === null || draft === null) return bar;
    const [first = '', ...more] = splitBars(draft);
    const { doc, origin } = handle;
    const at = barsInOrder(chart).find((one) => one.bar.id === bar);
    let last = bar;
    // One step for undo, whatever was typed.
    doc.transact(() => {
      if (first !== textOf(bar)) setBarText(doc, bar, first, origin);
      if (more.length === 0 || at === undefined) return;
      const bars = more.map((text) => ({ text }));
      last = addBars(doc, at.section.id, bar, bars, makeId, origin).at(-1) ?? bar;
    }, origin);
    return last;
  };
  const stand = (next: string | null) => {
    setBar(next);
    setFrom(next);
    handle.setCursor(next);
  };
  // A bar that was deleted is chosen no more.
  const isHere = bar !== null && barsInOrder(chart).some((at) => at.bar.id === bar);
  return {
    bar: isHere ? bar : null,
    chosen: isHere ? barsBetween(chart, from ?? bar, bar) : [],
    draft,
    choose: (next, extend = false) => {
      commit();
      setDraft(null);
      if (extend && next !== null && from !== null) {
        setBar(next);
        handle.setCursor(next);
      } else stand(next);
    },
    type: setDraft,
    open: (next) => {
      if (next !== bar) commit();
      stand(next);
      setDraft(handle.canEdit ? textOf(next) : null);
    },
    write: (then = 0) => {
      const written = commit();
      const next = written !== null && then !== 0 ? barBeside(chart, written, then) : null;
      stand(next ?? written);
      setDraft(next === null ? null : textOf(next));
    },
    drop: () => setDraft(null),
  };
};
