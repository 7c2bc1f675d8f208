import type { BarMusic } from '../../common/chart/bar-music.ts';
import type { Bar, Chart } from '../../common/chart/chart.ts';

export interface WrittenBar {
  readonly bar: Bar;
  /** Number on paper, from 1 through the chart; 0 for a pick-up. */
  readonly number: number;
  readonly music: BarMusic;
  /** A written break: 'hit' in its first bar, 'out' in those after it. */
  readonly out?: 'hit' | 'out';
}

/** A line of the page, as its writer wrote it. */
export interface WrittenLine {
  /** Id of its first bar. */
  readonly key: string;
  /** Section's name, on the section's first line. */
  readonly letter?: string;
  readonly bars: readonly WrittenBar[];
}

/** Bars of a break that begins here every time; one that is only played in some passes is left to its words. */
const breakBars = (music: BarMusic): number =>
  Math.max(0, ...music.words.map(({ mark, reach }) => (mark?.kind === 'break' && !reach ? mark.bars : 0)));

/**
 * The chart's lines, as long as they were written: a line ends where the writer's does and at a section's end.
 * Bars whose music is not known yet are left out until it is.
 */
export const chartLines = (chart: Chart, music: ReadonlyMap<string, BarMusic>): WrittenLine[] => {
  const lines: WrittenLine[] = [];
  let number = 0;
  let outBars = 0;
  for (const section of chart.sections) {
    let open: WrittenBar[] = [];
    let begun = false;
    const close = () => {
      const first = open[0];
      if (first === undefined) return;
      const letter = begun || section.label === '' ? {} : { letter: section.label };
      lines.push({ key: first.bar.id, bars: open, ...letter });
      begun = true;
      open = [];
    };
    for (const bar of section.bars) {
      const held = music.get(bar.id);
      if (held === undefined) continue;
      if (!held.pickUp) number += 1;
      const written = breakBars(held);
      const out = written > 0 ? 'hit' : outBars > 0 ? 'out' : undefined;
      outBars = Math.max(written, outBars) - 1;
      open.push({
        bar,
        number: held.pickUp ? 0 : number,
        music: held,
        ...(out === undefined ? {} : { out }),
      });
      if (bar.lineEnd) close();
    }
    close();
  }
  return lines;
};
