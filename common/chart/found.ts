import type { Problem } from './problem.ts';

/** A problem, and the part of the chart it is at: see `spotKey`. */
export interface Found extends Problem {
  readonly at: string;
}

/**
 * Names a part of the chart that has a place in its text.
 * @param id of a bar, or 'head'
 * @param part a token of the bar (from 0), one of its signs, or a header word
 */
export const spotKey = (id: string, part: number | string): string => `${id}\n${part}`;
