import { type PointerEvent, useRef } from 'react';

/** How far a finger goes before a touch is a swipe, px. */
const SWIPE_PX = 70;

/** Handlers for an element on which a swipe to the left (1: on) or to the right (−1: back) is heard. */
export const useSwipe = (onSwipe: (by: 1 | -1) => void) => {
  const start = useRef<{ readonly id: number; readonly x: number; readonly y: number } | null>(null);
  return {
    onPointerDown: ({ pointerType, pointerId, clientX, clientY }: PointerEvent) => {
      start.current = pointerType === 'mouse' ? null : { id: pointerId, x: clientX, y: clientY };
    },
    onPointerUp: ({ pointerId, clientX, clientY }: PointerEvent) => {
      const from = start.current;
      start.current = null;
      if (from === null || from.id !== pointerId) return;
      const across = clientX - from.x;
      if (Math.abs(across) < SWIPE_PX || Math.abs(clientY - from.y) > Math.abs(across) / 2) return;
      onSwipe(across < 0 ? 1 : -1);
    },
  };
};
