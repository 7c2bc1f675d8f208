import type { Performance } from './perform.ts';
import type { Announcement } from './place.ts';

export declare function announced(performance: Performance, tMs: number): readonly Announcement[];
