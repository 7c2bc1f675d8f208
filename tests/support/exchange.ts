import type { Exchange } from '../../common/clock/exchange.ts';
import { localMs, sharedMs } from '../../common/units.ts';

/** A ping and its pong: sent t0, received t1, answered t2, back t3; ms, t0 and t3 local, t1 and t2 shared. */
export const exchange = (t0: number, t1: number, t2: number, t3: number): Exchange => ({
  t0: localMs(t0),
  t1: sharedMs(t1),
  t2: sharedMs(t2),
  t3: localMs(t3),
});
