import { type FocusEvent, type PointerEvent, useEffect, useRef } from 'react';
import type { Chart } from '../../common/chart/chart.ts';
import type { Editing } from './editing.ts';
import { focusBar } from './focus-bar.ts';
import { barAt, barsInOrder } from './neighbours.ts';

/**
 * The keyboard stays on its bar when the bar is drawn elsewhere, and near it when the bar is gone: a step taken back, or
 * what somebody else does, must not throw it out of the music.
 * @returns handlers for the element around the bars
 */
export const useKeptFocus = (chart: Chart, editing: Editing) => {
  const on = useRef<{ readonly bar: string; readonly place: number } | null>(null);
  useEffect(() => {
    const was = on.current;
    if (was === null || document.activeElement !== document.body) return;
    const all = barsInOrder(chart).map(({ bar }) => bar.id);
    const { bar } = editing.get();
    const here = [bar, was.bar].find((id) => id !== null && barAt(chart, id) !== null);
    focusBar(here ?? all[Math.min(was.place, all.length - 1)] ?? null);
  }, [chart, editing]);
  return {
    onFocus: ({ target }: FocusEvent<HTMLElement>) => {
      const bar = target.dataset['barKey'];
      const place = barsInOrder(chart).findIndex((at) => at.bar.id === bar);
      on.current = bar === undefined ? null : { bar, place };
    },
    onPointerDown: ({ target }: PointerEvent) => {
      // Somebody who touches something else has left the bar.
      if (!(target instanceof Element && target.closest('[data-bar-key]'))) on.current = null;
    },
  };
};
