import { slowPulses } from '../../common/stage/count-pattern.ts';

export interface Count {
  /** The figure to show as large as the line; between two slow counts the last one stays. */
  readonly figure: string;
  /** Bars still to come, this one included. */
  readonly barsToCome: number;
  /** Index of the pulse in its bar, from 0. */
  readonly pulse: number;
}

/**
 * What is counted on each pulse of one bar of the count-in.
 * @example countedBar(4, false) // ['1', '', '2', '']
 * @example countedBar(4, true) // ['1', '2', '3', '4']
 */
export const countedBar = (barPulses: number, last: boolean): string[] => {
  const length = Math.max(1, Math.round(barPulses));
  if (last) return Array.from({ length }, (_, pulse) => String(pulse + 1));
  const slow = slowPulses(length);
  return Array.from({ length }, (_, pulse) => {
    const at = slow.indexOf(pulse);
    return at < 0 ? '' : String(at + 1);
  });
};

/**
 * What is counted now.
 * @param pulsesToCome of the whole count-in, a real number that falls to 0
 * @param countPulses pulses of the whole count-in; where a pick-up shortens it, the last bar is cut short
 */
export const countAt = (pulsesToCome: number, countPulses: number, barPulses: number): Count => {
  const total = Math.max(1, Math.round(countPulses));
  const bar = Math.max(1, Math.round(barPulses));
  // Before the first count everybody sees the first figure that comes.
  const gone = Math.min(total - 1, Math.max(0, Math.floor(total - pulsesToCome + 1e-6)));
  const bars = Math.ceil(total / bar);
  const inBar = Math.floor(gone / bar);
  const pulse = gone % bar;
  const figures = countedBar(bar, inBar === bars - 1);
  // Between two slow counts the last one stays: the eye needs something to rest on.
  let figure = '';
  for (let at = pulse; at >= 0 && figure === ''; at--) figure = figures[at] ?? '';
  return { figure, barsToCome: bars - inBar, pulse };
};
