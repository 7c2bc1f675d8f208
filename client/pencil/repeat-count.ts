import { repeatTimes } from '../../common/chart/bar-signs.ts';
import type { Bar, Chart } from '../../common/chart/chart.ts';
import { setBarSigns } from '../../common/document/edit-chart.ts';
import { barAt } from './neighbours.ts';
import type { AtHand } from './tool.ts';

/** The bar whose `:|` says how often the chosen bars are played: the first one from their last on, in their section. */
export const repeatEndOf = (chart: Chart, chosen: readonly string[]): Bar | null => {
  const last = chosen.at(-1);
  const at = last === undefined ? null : barAt(chart, last);
  for (const [step, bar] of (at?.section.bars.slice(at.index) ?? []).entries()) {
    // Another repeat begins before one closes.
    if (step > 0 && bar.left === '|:') return null;
    if (bar.right.startsWith(':|')) return bar;
  }
  return null;
};

/** How often the repeat around the chosen bars is played in all; null where none closes behind them. */
export const repeatCount = (chart: Chart, chosen: readonly string[]): number | null => {
  const end = repeatEndOf(chart, chosen);
  return end === null ? null : repeatTimes(end.right);
};

/** Writes how often it is played; where nothing is repeated yet, the chosen bars are from now on. */
export const setRepeatCount = ({ handle, chart, chosen }: AtHand, times: number): void => {
  const { doc, origin } = handle;
  const right = times === 2 ? ':|' : `:|x${times}`;
  const end = repeatEndOf(chart, chosen);
  const [first, last] = [chosen[0], chosen.at(-1)];
  doc.transact(() => {
    if (end !== null) setBarSigns(doc, end.id, { right }, origin);
    else if (first !== undefined && last !== undefined) {
      setBarSigns(doc, first, { left: '|:' }, origin);
      setBarSigns(doc, last, { right }, origin);
    }
  }, origin);
};
