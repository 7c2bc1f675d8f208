import { indexOutsideQuotes } from '../../common/chart/quoted-spans.ts';
import { plainText } from '../../common/chart/text-line.ts';

/**
 * What was typed into one bar, taken apart at its bar lines. Without one it comes back as it is.
 * @example splitBars('Fm7 | "a | b" Bb7') // ['Fm7', '"a | b" Bb7']
 */
export const splitBars = (typed: string): string[] => {
  const at = indexOutsideQuotes(plainText(typed), '|');
  if (at === -1) return [typed.trim()];
  return [typed.slice(0, at).trim(), ...splitBars(typed.slice(at + 1))];
};
