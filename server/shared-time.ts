import { type SharedMs, sharedMs } from '../common/units.ts';

/** The relay's clock, which every tablet follows: ms that never step, and that also read as a date. */
export interface SharedTime {
  readonly now: () => SharedMs;
  /** A new one means a new machine time: what a tablet knew about the clock before is void. */
  readonly epoch: string;
}

/** What the store keeps, so that shared time runs on over a restart. */
export interface TimeMark {
  readonly epoch: string;
  /** Shared ms minus monotonic ms, in this epoch. */
  readonly offsetMs: number;
  /** Shared and wall clock at one instant. */
  readonly sharedMs: number;
  readonly wallMs: number;
}

/**
 * The mark to go on from. In the same epoch (the machine has not been started anew) the offset stays, whatever
 * the wall clock did meanwhile. In a new one shared time goes on by as much as the wall clock says has passed,
 * never back, so that a take that is on keeps its place: the stage is anchored anew by the clock, not by a cue.
 * The first time of all it begins at the wall clock.
 */
export const goOnFrom = (
  mark: TimeMark | null,
  epoch: string,
  monotonicMs: number,
  wallMs: number,
): TimeMark => {
  if (mark?.epoch === epoch) return { ...mark, sharedMs: monotonicMs + mark.offsetMs, wallMs };
  const now = mark === null ? wallMs : mark.sharedMs + Math.max(0, wallMs - mark.wallMs);
  return { epoch, offsetMs: now - monotonicMs, sharedMs: now, wallMs };
};

export const sharedTimeOf = (mark: TimeMark, monotonicMs: () => number): SharedTime => ({
  now: () => sharedMs(monotonicMs() + mark.offsetMs),
  epoch: mark.epoch,
});
