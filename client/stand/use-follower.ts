import { useEffect, useMemo, useRef, useSyncExternalStore } from 'react';
import { type Follower, follow, type Moment } from './follower.ts';
import type { StandSource } from './stand-source.ts';

/** Follows what `source` answers. A new source, as every cue brings one, is followed from the render that brings it. */
export const useFollower = (source: StandSource | null, sharedNow: () => number): Follower | null =>
  useMemo(() => (source === null ? null : follow(source, sharedNow)), [source, sharedNow]);

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
  return useSyncExternalStore(follower.moment.subscribe, pick, pick);
};

/** Calls `frame` on every frame while the component is there. */
export const useFrames = (follower: Follower, frame: Parameters<Follower['watch']>[0]): void => {
  const latest = useRef(frame);
  latest.current = frame;
  useEffect(() => follower.watch((where, tMs) => latest.current(where, tMs)), [follower]);
};
