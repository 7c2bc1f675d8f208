import { useEffect, useLayoutEffect, useState } from 'react';
import type { ChartHandle } from '../state/chart-handle.ts';
import { type Editing, openEditing } from './editing.ts';

/** The editing of a chart while the page looks at it. What is being typed is written also where the page goes away. */
export const useEditing = (handle: ChartHandle): Editing => {
  const [editing] = useState(() => openEditing(handle));
  // Before the document is let go, which happens after layout.
  useLayoutEffect(() => editing.watch(), [editing]);
  useEffect(() => {
    const leave = () => {
      editing.write();
    };
    window.addEventListener('pagehide', leave);
    return () => window.removeEventListener('pagehide', leave);
  }, [editing]);
  return editing;
};
