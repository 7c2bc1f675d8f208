import { type RefObject, useLayoutEffect, useState } from 'react';

/**
 * Bars of a line that stand side by side. A line of the chart that is longer is folded, for at arm's length its
 * chords could not be read: two on a phone, four on a tablet, more on a wide screen.
 * @param widthPx width of the lines
 * @param heightPx height of the screen: the chords grow with it
 * @param leastBarPx what stands in a bar needs so much; on a phone it gets what there is
 */
export const barsPerLine = (widthPx: number, heightPx: number, leastBarPx = 0): number => {
  if (widthPx < 600) return 2;
  const bars = Math.max(4, Math.floor(widthPx / Math.max(210, heightPx * 0.26)));
  return leastBarPx === 0 ? bars : Math.max(1, Math.min(bars, Math.floor(widthPx / leastBarPx)));
};

/** `barsPerLine` of an element, following its size. */
export const useBarsPerLine = (element: RefObject<HTMLElement | null>, leastBarPx?: number): number => {
  const [bars, setBars] = useState(() =>
    barsPerLine(window.innerWidth - 100, window.innerHeight, leastBarPx),
  );
  useLayoutEffect(() => {
    const box = element.current;
    if (box === null) return;
    const measure = () => setBars(barsPerLine(box.clientWidth, window.innerHeight, leastBarPx));
    const observer = new ResizeObserver(measure);
    observer.observe(box);
    measure();
    return () => observer.disconnect();
  }, [element, leastBarPx]);
  return bars;
};
