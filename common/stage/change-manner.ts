import type { Course } from './course.ts';
import type { Manner } from './manner.ts';

/** From `ms` on the band plays in another manner; what is not named stays. */
export const changeManner = (course: Course, change: Partial<Manner>, ms: number): void => {
  course.manner = { ...course.manner, ...change };
  const { manners } = course.log;
  const fromMs = Math.max(ms, manners.at(-1)?.fromMs ?? Number.NEGATIVE_INFINITY);
  manners.push({ fromMs, manner: course.manner });
};
