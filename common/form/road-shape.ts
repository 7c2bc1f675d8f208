import type { Road } from './road.ts';

/**
 * The road as text, for telling whether it has changed. What a bar sounds is left out: the stands read that from
 * the chart by the bar's id, so a corrected chord needs no new road.
 */
export const roadShape = (road: Road): string =>
  JSON.stringify(road, (name, value: unknown) => (name === 'music' ? undefined : value));
