import type { Road } from './road.ts';

/**
 * The road as text, for telling whether it has changed. What a bar sounds is left out: the stands read that from
 * the chart by the bar's id, so a corrected chord needs no new road. The order in which fields were written
 * doesn't matter.
 */
export const roadShape = (road: Road): string =>
  JSON.stringify(road, (name, value: unknown) => (name === 'music' ? undefined : inOrder(value)));

const inOrder = (value: unknown): unknown =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
    ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
    : value;
