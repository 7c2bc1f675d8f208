import type { LocalMs, SharedMs } from '../units.ts';

/** One ping and its pong: four stamps on two clocks. */
export interface Exchange {
  /** The tablet sent the ping. */
  readonly t0: LocalMs;
  /** The relay received it. */
  readonly t1: SharedMs;
  /** The relay sent the pong. */
  readonly t2: SharedMs;
  /** The tablet received it. */
  readonly t3: LocalMs;
}

/** Shared − local, ms, if both ways took equally long. RFC 5905 §8: θ = ½[(T2 − T1) + (T3 − T4)]. */
export const offsetMs = ({ t0, t1, t2, t3 }: Exchange): number => (t1 - t0 + (t2 - t3)) / 2;

/** Round trip without the relay's own time, ms. RFC 5905 §8: δ = (T4 − T1) − (T3 − T2). */
export const roundTripMs = ({ t0, t1, t2, t3 }: Exchange): number => t3 - t0 - (t2 - t1);

/** Whether four such stamps can exist at all: finite, nothing received before it was sent. */
export const isPossible = ({ t0, t1, t2, t3 }: Exchange): boolean =>
  [t0, t1, t2, t3].every(Number.isFinite) && t3 >= t0 && t2 >= t1;
