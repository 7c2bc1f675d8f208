import { useMemo } from 'react';
import { keyWords, modulatingReader, semitonesFor } from './reader-key.ts';
import type { StandViewProps } from './stand-props.ts';

/** How this reader reads the chart: a chord in its bar, and the key in words when it is played so much higher. */
export const useReader = ({ chart, settings }: Pick<StandViewProps, 'chart' | 'settings'>) => {
  const key = chart?.head.key ?? '';
  const { part, concert, noteNames } = settings;
  return useMemo(
    () => ({
      read: modulatingReader(key, semitonesFor({ part, concert })),
      words: (modulation: number) => keyWords(key, { part, concert }, modulation, noteNames),
    }),
    [key, part, concert, noteNames],
  );
};
