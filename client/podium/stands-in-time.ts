import type { Person } from '../state/person.ts';

/**
 * How many stands follow, and how exact the worst of them knows the time.
 * @example standsInTime(people) // '6 stands in time, worst 2 ms'
 */
export const standsInTime = (people: readonly Person[]): string => {
  const errors = people.flatMap(({ errorMs }) => (errorMs === null ? [] : [errorMs]));
  if (errors.length === 0) return 'no stand in time yet';
  const finding = people.length - errors.length;
  const worst = Math.max(...errors);
  const exact = worst < 1 ? 'within 1 ms' : `worst ${Math.ceil(worst)} ms`;
  const stands = errors.length === 1 ? '1 stand' : `${errors.length} stands`;
  return `${stands} in time, ${exact}${finding > 0 ? `, ${finding} finding the beat` : ''}`;
};
