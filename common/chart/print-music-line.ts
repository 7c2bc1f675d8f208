import type { Bar } from './chart.ts';

/**
 * A line of bars as text, each bar's text filled up to `width`.
 * @param bars with their texts tidied
 */
export const printMusicLine = (bars: readonly Bar[], width: number): string => {
  let line = '';
  bars.forEach((bar, index) => {
    const sign = signBetween(bars[index - 1], bar);
    const isFigure = /\d$/.test(sign);
    line += `${sign}${bar.ending === '' ? '' : `${isFigure ? ' ' : ''}${bar.ending}`} ${fill(bar.text, width)} `;
  });
  return line + (bars.at(-1)?.right || '|');
};

/** The bar line before a bar, so written that reading finds the same two bars. */
const signBetween = (before: Bar | undefined, bar: Bar): string => {
  if (!before) return bar.left || '|';
  if (before.right === '') {
    // `| |:` would say that nothing stands between the two.
    return bar.left !== '' && isEmpty(before) ? `| ${bar.left}` : bar.left || '|';
  }
  if (bar.left !== '') return `${before.right} ${bar.left}`;
  // After a closing sign, a plain bar line belongs to it; and figures or an x could be taken for times.
  const isMistakable = bar.ending === '' && /^[xX×\d]/.test(bar.text);
  return (isEmpty(bar) && bar.right === '') || isMistakable ? `${before.right} |` : before.right;
};

const isEmpty = (bar: Bar): boolean => bar.text === '';

const fill = (text: string, width: number): string =>
  text + ' '.repeat(Math.max(0, width - [...text].length));
