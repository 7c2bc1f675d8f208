const FIRST_MS = 250;
const LONGEST_MS = 4000;

/**
 * How long to wait before trying to reach the relay again, in ms. Doubles with each failure up to 4 s and is
 * spread by half either way, so that a whole band does not come back in the same moment.
 * @param failures failures in a row, from 1
 * @param random 0 ≤ random < 1
 */
export const backoffMs = (failures: number, random: number): number =>
  Math.min(LONGEST_MS, FIRST_MS * 2 ** Math.min(failures - 1, 10)) * (0.5 + random);
