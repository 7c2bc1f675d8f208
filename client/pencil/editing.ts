import type { Chart } from '../../common/chart/chart.ts';
import { addBars, deleteBars, moveBars } from '../../common/document/edit-chart.ts';
import { reviveBar } from '../../common/document/revive-bar.ts';
import type { ChartHandle } from '../state/chart-handle.ts';
import { makeId } from '../state/make-id.ts';
import { type Observable, settable } from '../state/observable.ts';
import { barAt, barBeside, barsBetween, barsInOrder, numberOf } from './neighbours.ts';
import { goneOn, typedBars } from './typed-bars.ts';
import { addBarsAfter, writeTyped } from './write-typed.ts';

/** What is being typed into a bar. */
export interface Draft {
  readonly bar: string;
  /** The bar's text when typing began. Where it is another by now, somebody else wrote it meanwhile. */
  readonly base: string;
  readonly text: string;
  /** What is selected when the field opens: all of it, nothing (at its end), or from one place to another. */
  readonly caret: 'all' | 'end' | readonly [from: number, to: number];
}

/** What was being typed into a bar that somebody else has deleted. */
export interface LostDraft {
  readonly bar: string;
  readonly text: string;
  /** The number the bar had, from 1. */
  readonly number: number;
  /** Name of who deleted it; null where nobody knows. */
  readonly who: string | null;
}

/** What touching a bar does: open it, take all bars up to it, or put the chosen ones beside it. */
export type TouchMode = 'edit' | 'upTo' | 'move' | 'copy';

export interface EditingState {
  /** The bar that was touched last. */
  readonly bar: string | null;
  /** The other end of the bars that are chosen. */
  readonly from: string | null;
  readonly draft: Draft | null;
  readonly lost: readonly LostDraft[];
  readonly mode: TouchMode;
}

/** Which bars are chosen, and what is being typed. A bar is written on Enter or when it is left, never half-typed. */
export interface Editing extends Observable<EditingState> {
  readonly choose: (bar: string | null, extend?: boolean) => void;
  readonly chooseAll: (bars: readonly string[]) => void;
  /** Begins to type into a bar: with all of its text selected, or with this text instead. */
  readonly open: (bar: string, draft?: Pick<Draft, 'text' | 'caret'>) => void;
  readonly type: (text: string) => void;
  /** Where the caret is while one types: a field that is drawn anew, because its bar has moved, has it there again. */
  readonly caret: { from: number; to: number } | null;
  readonly keepCaret: (from: number, to: number) => void;
  /** Takes what somebody else wrote meanwhile instead of what is being typed. */
  readonly takeTheirs: () => void;
  /** Writes what is being typed; with `then` goes on to the bar beside it. Gives whether there is such a bar. */
  readonly write: (then?: 1 | -1) => boolean;
  /** Writes what is being typed before something else is done with the bar, which stays even where it is empty. */
  readonly settle: () => void;
  /** Writes what is being typed into this bar, if something still is. */
  readonly leave: (bar: string) => void;
  /** Forgets what was typed. */
  readonly drop: () => void;
  readonly touchTo: (mode: TouchMode) => void;
  /** Puts the chosen bars, or a copy of them, beside a bar. */
  readonly place: (bar: string, side: 'before' | 'after') => void;
  readonly typeLost: (at: number, text: string) => void;
  readonly putBack: (at: number) => void;
  readonly letGo: (at: number) => void;
  /** Follows what others do to the bars at hand; to be called once. Gives what ends it, after writing what was typed. */
  readonly watch: () => () => void;
}

/** The bars that are chosen, in the order of the chart. */
export const chosenIn = (chart: Chart, { bar, from }: EditingState): readonly string[] =>
  bar === null || barAt(chart, bar) === null ? [] : barsBetween(chart, from ?? bar, bar);

const NOTHING: EditingState = { bar: null, from: null, draft: null, lost: [], mode: 'edit' };
const EMPTY_BAR = { text: '', left: '', right: '', ending: '', lineEnd: false };

export const openEditing = (handle: ChartHandle): Editing => {
  const { doc, origin } = handle;
  const state = settable(NOTHING);
  let before: Chart | null = null;
  /** The bar that typing on has made, until something is typed into it. */
  let grown: string | null = null;
  let caret: Editing['caret'] = null;
  const change = (fields: Partial<EditingState>) => state.set({ ...state.get(), ...fields });
  const chartNow = (): Chart | null => handle.chart.get()?.chart ?? null;
  const textOf = (bar: string): string => {
    const chart = chartNow();
    return (chart && barAt(chart, bar)?.bar.text) ?? '';
  };
  const stand = (bar: string | null, from = bar) => {
    change({ bar, from, draft: null });
    handle.setCursor(bar);
  };
  /** A bar that typing on has made and that nobody has written is no bar. */
  const takeBackGrown = () => {
    const bar = grown;
    grown = null;
    const chart = chartNow();
    const at = chart && bar !== null ? barAt(chart, bar) : null;
    if (bar === null || at?.bar.text !== '') return;
    const left = at.section.bars[at.index - 1]?.id ?? null;
    if (state.get().bar === bar) stand(left);
    deleteBars(doc, [bar], origin);
  };

  /** A draft whose bar is gone is set apart, one that nobody has touched follows what others write. */
  const notice = () => {
    const { draft, bar, lost } = state.get();
    const chart = chartNow();
    const was = before;
    before = chart;
    if (!chart) return;
    if (draft) {
      const now = barAt(chart, draft.bar);
      const isTouched = draft.text !== draft.base;
      if (now === null && isTouched) {
        const number = was === null ? 0 : numberOf(was, draft.bar);
        const who = handle.fresh.get().get(draft.bar)?.name ?? null;
        change({ lost: [...lost, { bar: draft.bar, text: draft.text, number, who }] });
      } else if (now !== null && !isTouched && now.bar.text !== draft.base) {
        change({ draft: { ...draft, base: now.bar.text, text: now.bar.text } });
      }
    }
    if (bar !== null && barAt(chart, bar) === null) {
      stand(null);
      change({ mode: 'edit' });
    }
  };

  /** Writes what was typed; gives the bar it ended in. */
  const commit = (): string | null => {
    const { draft, bar } = state.get();
    if (!draft || draft.text === draft.base) {
      takeBackGrown();
      return state.get().bar ?? bar;
    }
    grown = null;
    // No more a draft before the document tells that it changed.
    change({ draft: null });
    return writeTyped(handle, draft.bar, draft.text);
  };
  const open: Editing['open'] = (bar, draft) => {
    commit();
    stand(bar);
    if (!handle.canEdit) return;
    const base = textOf(bar);
    caret = null;
    change({ draft: { bar, base, text: base, caret: 'all', ...draft }, mode: 'edit' });
  };
  const withoutLost = (at: number) => state.get().lost.filter((_, index) => index !== at);

  return {
    get: state.get,
    subscribe: state.subscribe,
    choose: (bar, extend = false) => {
      commit();
      const { from } = state.get();
      stand(bar, extend && bar !== null && from !== null ? from : bar);
    },
    chooseAll: (bars) => {
      commit();
      stand(bars.at(-1) ?? null, bars[0] ?? null);
    },
    open,
    type: (text) => {
      const { draft } = state.get();
      if (!draft) return;
      const on = text.length === draft.text.length + 1 ? goneOn(text) : null;
      if (on === null) return change({ draft: { ...draft, text } });
      change({ draft: { ...draft, text: on.finished } });
      const written = commit() ?? draft.bar;
      const chart = chartNow();
      const at = chart && barAt(chart, written);
      const next = at?.section.bars[at.index + 1];
      // An empty bar is waiting to be written; anything else makes room.
      const isWaiting = next?.text === '';
      const into = isWaiting ? next.id : addBarsAfter(handle, written, [EMPTY_BAR]);
      open(into, { text: on.begun, caret: 'end' });
      grown = isWaiting ? null : into;
    },
    get caret() {
      return caret;
    },
    keepCaret: (from, to) => {
      caret = { from, to };
    },
    takeTheirs: () => {
      const { draft } = state.get();
      if (!draft) return;
      const text = textOf(draft.bar);
      change({ draft: { ...draft, base: text, text } });
    },
    write: (then) => {
      const { draft } = state.get();
      if (!draft && then === undefined) return false;
      const written = commit();
      const chart = chartNow();
      const at = written === null || !chart ? null : barAt(chart, written);
      if (then === undefined || !chart || at === null) {
        stand(written);
        return false;
      }
      const beside = barBeside(chart, at.bar.id, then);
      // Who writes on at the end of a section, or of the chart, makes bars; who goes through what is written does not.
      const isWriting = draft !== null && draft.text.trim() !== '' && (draft.base === '' || beside === null);
      const isLast = at.index === at.section.bars.length - 1;
      const next = then === 1 && isWriting && isLast ? addBarsAfter(handle, at.bar.id, [EMPTY_BAR]) : beside;
      if (next === null) stand(written);
      else open(next);
      grown = next === beside ? null : next;
      return next !== null;
    },
    settle: () => {
      grown = null;
      if (state.get().draft) stand(commit());
    },
    leave: (bar) => {
      if (state.get().draft?.bar === bar) stand(commit());
    },
    drop: () => {
      change({ draft: null });
      takeBackGrown();
    },
    touchTo: (mode) => {
      commit();
      change({ mode, draft: null });
    },
    place: (bar, side) => {
      const chart = chartNow();
      const { mode } = state.get();
      const target = chart && barAt(chart, bar);
      change({ mode: 'edit' });
      if (!chart || !target) return;
      const chosen = chosenIn(chart, state.get());
      const after = side === 'after' ? bar : (target.section.bars[target.index - 1]?.id ?? null);
      if (mode === 'copy') {
        const bars = barsInOrder(chart).flatMap(({ bar: { id, ...content } }) =>
          chosen.includes(id) ? [content] : [],
        );
        const copies = addBars(doc, target.section.id, after, bars, makeId, origin);
        return stand(copies.at(-1) ?? null, copies[0] ?? null);
      }
      if (mode !== 'move' || chosen.includes(bar)) return;
      // Behind one of the chosen bars is behind the last bar before them that stays.
      const kept = target.section.bars.slice(0, target.index + 1).filter(({ id }) => !chosen.includes(id));
      const anchor = after !== null && chosen.includes(after) ? (kept.at(-2)?.id ?? null) : after;
      moveBars(doc, chosen, target.section.id, anchor, makeId, origin);
      stand(chosen.at(-1) ?? null, chosen[0] ?? null);
    },
    typeLost: (at, text) =>
      change({ lost: state.get().lost.map((lost, index) => (index === at ? { ...lost, text } : lost)) }),
    putBack: (at) => {
      const lost = state.get().lost[at];
      if (!lost) return;
      change({ lost: withoutLost(at) });
      const first = typedBars(lost.text)[0]?.text ?? '';
      const chart = chartNow();
      const last = chart && barsInOrder(chart).at(-1);
      const isBack = reviveBar(doc, lost.bar, first, origin);
      // Where another program has removed it for good, what was typed is put at the end.
      const bar = isBack || !last ? lost.bar : addBarsAfter(handle, last.bar.id, [EMPTY_BAR]);
      stand(writeTyped(handle, bar, lost.text));
    },
    letGo: (at) => change({ lost: withoutLost(at) }),
    watch: () => {
      before = chartNow();
      const stop = handle.chart.subscribe(notice);
      return () => {
        commit();
        stop();
        handle.setCursor(null);
      };
    },
  };
};
