import { type PointerEvent, useEffect, useRef } from 'react';
import type { Editing } from './editing.ts';

/** A finger that rests so long, in ms, begins to choose instead of opening the bar. */
const LONG_PRESS_MS = 450;
/** A finger that has moved so far, in px, is scrolling. */
const STILL_PX = 10;

const barUnder = (target: EventTarget | null): string | null =>
  (target instanceof Element && target.closest<HTMLElement>('[data-bar-id]')?.dataset['barId']) || null;

/**
 * Choosing bars by hand. A mouse or a pen sweeps from the first to the last; a finger rests on the first, after which
 * the next touch takes all bars up to there (a finger that moves scrolls the page).
 * @returns handlers for the element around the bars
 */
export const useSweep = (editing: Editing) => {
  const from = useRef<string | null>(null);
  const start = useRef({ x: 0, y: 0 });
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  /** The click that ends a sweep or a long press opens nothing. */
  const spent = useRef(false);
  const rest = () => {
    clearTimeout(timer.current);
    from.current = null;
  };
  useEffect(() => () => clearTimeout(timer.current), []);

  return {
    onPointerDown: (event: PointerEvent) => {
      spent.current = false;
      rest();
      const bar = barUnder(event.target);
      const isKey = event.target instanceof Element && event.target.closest('[data-bar-key]') !== null;
      if (bar === null || !isKey || event.button !== 0 || event.shiftKey || editing.get().mode !== 'edit')
        return;
      start.current = { x: event.clientX, y: event.clientY };
      if (event.pointerType !== 'touch') {
        from.current = bar;
        return;
      }
      timer.current = setTimeout(() => {
        spent.current = true;
        editing.choose(bar);
        editing.touchTo('upTo');
      }, LONG_PRESS_MS);
    },
    onPointerMove: (event: PointerEvent) => {
      const { x, y } = start.current;
      const isStill = Math.hypot(event.clientX - x, event.clientY - y) < STILL_PX;
      if (!isStill) clearTimeout(timer.current);
      if (from.current === null || event.buttons === 0 || isStill) return;
      const bar = barUnder(document.elementFromPoint(event.clientX, event.clientY));
      if (bar === null || (bar === from.current && !spent.current)) return;
      spent.current = true;
      const { bar: now, from: begun } = editing.get();
      if (now !== bar || begun !== from.current) editing.chooseAll([from.current, bar]);
    },
    onPointerUp: rest,
    onPointerCancel: rest,
    onClickCapture: (event: { stopPropagation: () => void; preventDefault: () => void }) => {
      if (!spent.current) return;
      spent.current = false;
      event.stopPropagation();
      event.preventDefault();
    },
    onContextMenu: (event: { preventDefault: () => void }) => {
      // A resting finger asks for no menu.
      if (spent.current) event.preventDefault();
    },
  };
};
