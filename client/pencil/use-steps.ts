import { useCallback, useEffect, useState } from 'react';
import type { ChartHandle } from '../state/chart-handle.ts';
import { markedAt } from '../state/chart-places.ts';
import { stepWords } from './step-words.ts';

/** So long the words stand, ms. */
const SAID_MS = 6000;

export interface Steps {
  /** What the last one has done, or why nothing; null a while later. */
  readonly words: string | null;
  readonly take: (which: 'undo' | 'redo') => void;
}

/** One's own steps, taken back and done again, and what is said of it. */
export const useSteps = (handle: ChartHandle): Steps => {
  const [said, setSaid] = useState<{ readonly words: string } | null>(null);
  useEffect(() => {
    if (said === null) return;
    const timer = setTimeout(() => setSaid(null), SAID_MS);
    return () => clearTimeout(timer);
  }, [said]);
  const take = useCallback(
    (which: 'undo' | 'redo') => {
      if (!handle.canEdit) return;
      const step = handle[which]();
      const chart = handle.chart.get()?.chart;
      if (step === null)
        setSaid({ words: `There is no step of yours to ${which === 'undo' ? 'take back' : 'do again'}.` });
      else if (chart) {
        const whoAt = (place: string) => handle.fresh.get().get(markedAt(place))?.name;
        setSaid({ words: stepWords(chart, step, which, whoAt) });
      }
    },
    [handle],
  );
  return { words: said?.words ?? null, take };
};
