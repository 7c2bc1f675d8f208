import type { Road } from '../../common/form/road.ts';
import type { Announcement, ComingBar, Where } from '../../common/stage/place.ts';

/**
 * What a stand asks about the take that is on. A narrow face of `common/stage`, so that a stand can be looked at
 * without a band. All times are shared ms.
 */
export interface StandSource {
  readonly locate: (tMs: number) => Where;
  readonly barsAround: (
    tMs: number,
    before: number,
    after: number,
  ) => { readonly bars: readonly ComingBar[]; readonly now: number };
  readonly announced: (tMs: number) => readonly Announcement[];
  readonly roadAt: (tMs: number) => Road;
  /** The tempo in force, or the one a start would begin with: pulses a minute. */
  readonly tempoAt: (tMs: number) => number;
  /** Semitones by which the chart is read higher at that time. */
  readonly semitonesAt: (tMs: number) => number;
  /** Who solos now and next; null where no order is named. */
  readonly soloAt: (tMs: number) => { readonly now: string | null; readonly next: string | null } | null;
  /** The dynamic called or written; null before the first. */
  readonly dynamicAt: (tMs: number) => string | null;
}
