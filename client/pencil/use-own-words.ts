import { useLayoutEffect, useState } from 'react';
import type { ChartHandle } from '../state/chart-handle.ts';
import { tabletStore } from '../storage/browser-stores.ts';
import { openOwnTexts } from '../storage/own-texts.ts';
import { type OwnWords, openOwnWords } from './own-words.ts';

/** One's own words in a chart while the page looks at it. To be used after what writes them, so that it hears the last. */
export const useOwnWords = (handle: ChartHandle, member: string): OwnWords => {
  const [own] = useState(() =>
    openOwnWords(handle, openOwnTexts(tabletStore, member, handle.id, Date.now), Date.now),
  );
  useLayoutEffect(() => own.watch(), [own]);
  return own;
};
