import type { Where } from '../../common/stage/place.ts';
import { onFrame } from '../state/frame-loop.ts';
import { type Observable, settable } from '../state/observable.ts';
import type { StandSource } from './stand-source.ts';

/** Where the band is, to the pulse. The same object until the state, the bar or the whole pulse changes. */
export interface Moment {
  readonly where: Where;
  readonly atMs: number;
}

/** Follows a take frame by frame, while anybody watches: one `locate` a frame for everything on the stand. */
export interface Follower {
  readonly source: StandSource;
  readonly now: () => number;
  /** Where the band was on the last frame, or when the follower was made. */
  readonly where: () => Where;
  /** Called on every frame, before the moment changes: for those who write to elements they hold. */
  readonly watch: (frame: (where: Where, tMs: number) => void) => () => void;
  /** Changes with the pulse: for what React renders. */
  readonly moment: Observable<Moment>;
}

/** State, bar and whole pulse in one word; equal words are one moment. */
export const momentKey = (where: Where): string => {
  switch (where.state) {
    case 'waiting':
      return 'waiting';
    case 'ended':
      return `ended ${where.atMs}`;
    case 'count':
      return `count ${where.countPulses} ${Math.ceil(where.pulsesToCome - 1e-6)}`;
    case 'playing':
    case 'held': {
      const { leg, pass, barIndex, pulse } = where.place;
      const bpm = where.state === 'playing' ? Math.round(where.bpm) : 0;
      return `${where.state} ${where.bar} ${leg} ${pass} ${barIndex} ${Math.floor(pulse)} ${bpm}`;
    }
  }
};

/**
 * A follower of that take. Making one starts nothing, so that a page can make it while it renders and show a new
 * cue in that very render; its frames begin with the first who watches and end with the last.
 */
export const follow = (source: StandSource, now: () => number): Follower => {
  const watchers = new Set<(where: Where, tMs: number) => void>();
  const startMs = now();
  let where = source.locate(startMs);
  let key = momentKey(where);
  const moment = settable<Moment>({ where, atMs: startMs });
  const frame = (): void => {
    const tMs = now();
    where = source.locate(tMs);
    for (const watch of [...watchers]) watch(where, tMs);
    const next = momentKey(where);
    if (next === key) return;
    key = next;
    moment.set({ where, atMs: tMs });
  };

  let watched = 0;
  let stopFrames = () => {};
  const whileWatched = (unwatch: () => void): (() => void) => {
    watched += 1;
    if (watched === 1) stopFrames = onFrame(frame);
    let ended = false;
    return () => {
      if (ended) return;
      ended = true;
      unwatch();
      watched -= 1;
      if (watched === 0) stopFrames();
    };
  };
  return {
    source,
    now,
    where: () => where,
    watch: (each) => {
      watchers.add(each);
      return whileWatched(() => watchers.delete(each));
    },
    moment: { get: moment.get, subscribe: (changed) => whileWatched(moment.subscribe(changed)) },
  };
};
