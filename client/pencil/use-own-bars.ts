import { useLayoutEffect, useState } from 'react';
import type { ChartHandle } from '../state/chart-handle.ts';
import { tabletStore } from '../storage/browser-stores.ts';
import { openOwnTexts } from '../storage/own-texts.ts';
import { type OwnBars, openOwnBars } from './own-bars.ts';

/** One's own bars in a chart while the page looks at it. To be used after what writes them, so that it hears the last. */
export const useOwnBars = (handle: ChartHandle, member: string): OwnBars => {
  const [own] = useState(() =>
    openOwnBars(handle, openOwnTexts(tabletStore, member, handle.id, Date.now), Date.now),
  );
  useLayoutEffect(() => own.watch(), [own]);
  return own;
};
