import { useEffect, useState } from 'react';
import type { Board } from '../state/board.ts';
import { loadLater } from '../state/load-later.ts';
import type { LaterParts } from './later-parts.ts';

/** They are the same for every stand that this page opens. */
let loaded: LaterParts | null = null;

/** The later parts, fetched as soon as the first picture stands; null until they are here. */
export const useLaterParts = ({ link }: Board): LaterParts | null => {
  const [parts, setParts] = useState(loaded);
  useEffect(() => {
    if (loaded !== null) return;
    let here = true;
    void loadLater(() => import('./later-parts.ts'), link).then(({ laterParts }) => {
      loaded = laterParts;
      if (here) setParts(laterParts);
    });
    return () => {
      here = false;
    };
  }, [link]);
  return parts;
};
