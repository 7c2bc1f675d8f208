import type { Performance } from './perform.ts';
import type { ComingBar } from './place.ts';

export declare function upcoming(performance: Performance, tMs: number, n: number): readonly ComingBar[];
export declare function barsAround(
  performance: Performance,
  tMs: number,
  before: number,
  after: number,
): { readonly bars: readonly ComingBar[]; readonly now: number };
