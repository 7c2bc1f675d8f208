/**
 * Which bars, as people say it.
 * @param from number of the first, from 1
 * @param to number of the last
 * @example barNumbers(5, 8) // 'bars 5–8'
 */
export const barNumbers = (from: number, to: number): string =>
  from === to ? `bar ${from}` : `bars ${from}–${to}`;
