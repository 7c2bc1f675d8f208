/* Stand-ins until the stage answers these questions itself. */
import type { Performance } from '../../common/stage/perform.ts';
import type { Place } from '../../common/stage/place.ts';
export const soloAt = (_: Performance, _t: number): { now: string | null; next: string | null } | null =>
  null;
export const missedAt = (_: Performance, _t: number): { cue: string; name: string } | null => null;
export const lastStopAt = (_: Performance): Place | null => null;
export const loopAt = (_: Performance, _t: number): object | null => null;
