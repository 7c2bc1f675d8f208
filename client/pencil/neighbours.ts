import type { Bar, Chart, Section } from '../../common/chart/chart.ts';

export interface BarAt {
  readonly bar: Bar;
  readonly section: Section;
  /** From 0 in its section. */
  readonly index: number;
}

/** All bars in the order they are written. */
export const barsInOrder = (chart: Chart): BarAt[] =>
  chart.sections.flatMap((section) => section.bars.map((bar, index) => ({ bar, section, index })));

/** The bar so many bars on (or, below 0, back); null where the chart ends. */
export const barBeside = (chart: Chart, id: string, by: number): string | null => {
  const all = barsInOrder(chart);
  const at = all.findIndex(({ bar }) => bar.id === id);
  return at < 0 ? null : (all[at + by]?.bar.id ?? null);
};

/** The bars from one to another, whichever comes first. */
export const barsBetween = (chart: Chart, from: string, to: string): string[] => {
  const ids = barsInOrder(chart).map(({ bar }) => bar.id);
  const [a, b] = [ids.indexOf(from), ids.indexOf(to)].sort((x, y) => x - y);
  return a === undefined || b === undefined || a < 0 ? [to] : ids.slice(a, b + 1);
};

/** A letter that no section has yet: after A and B it is C. */
export const freeLetter = (chart: Chart): string => {
  const taken = new Set(chart.sections.map(({ label }) => label));
  for (let code = 65; code <= 90; code++) {
    const letter = String.fromCharCode(code);
    if (!taken.has(letter)) return letter;
  }
  return `S${chart.sections.length + 1}`;
};
