import type { Performance } from './perform.ts';
import type { Where } from './place.ts';

export declare function locate(performance: Performance, tMs: number): Where;
