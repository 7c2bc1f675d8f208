import { useEffect, useMemo, useRef, useSyncExternalStore } from 'react';
import type { Follower, Moment } from './follower.ts';

/** The moment, re-rendering only when `keyOf` it changes. */
export const useMoment = (follower: Follower, keyOf: (moment: Moment) => string): Moment => {
  const held = useRef<{ key: string; moment: Moment } | null>(null);
  const pick = useMemo(() => {
    held.current = null;
    return () => {
      const moment = follower.moment.get();
      const key = keyOf(moment);
      if (held.current?.key !== key) held.current = { key, moment };
      return held.current.moment;
    };
  }, [follower, keyOf]);
  return useSyncExternalStore(follower.moment.subscribe, pick);
};

/** Calls `frame` on every frame while the component is there. */
export const useFrames = (follower: Follower, frame: Parameters<Follower['watch']>[0]): void => {
  const latest = useRef(frame);
  latest.current = frame;
  useEffect(() => follower.watch((where, tMs) => latest.current(where, tMs)), [follower]);
};
