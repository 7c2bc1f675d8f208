import type { Leg, Road } from '../form/road.ts';
import type { Performance } from './perform.ts';

export declare function roadAt(performance: Performance, tMs: number): Road;
export declare function semitonesAt(performance: Performance, tMs: number): number;
export declare function legAt(performance: Performance, tMs: number): Leg | null;
