import type { Bar, Chart, Section } from '../../common/chart/chart.ts';
import { readBars } from '../../common/chart/read-bars.ts';

export interface BarAt {
  readonly bar: Bar;
  readonly section: Section;
  /** From 0 in its section. */
  readonly index: number;
}

/** All bars in the order they are written. */
export const barsInOrder = (chart: Chart): BarAt[] =>
  chart.sections.flatMap((section) => section.bars.map((bar, index) => ({ bar, section, index })));

/** Where a bar stands; null where it stands no more. */
export const barAt = (chart: Chart, id: string): BarAt | null =>
  barsInOrder(chart).find(({ bar }) => bar.id === id) ?? null;

/** The number a bar has on paper, from 1; 0 for a pick-up and for a bar that stands no more. */
export const numberOf = (chart: Chart, id: string): number => {
  const { music } = readBars(chart);
  let number = 0;
  for (const { bar } of barsInOrder(chart)) {
    const isPickUp = music.get(bar.id)?.pickUp === true;
    if (!isPickUp) number += 1;
    if (bar.id === id) return isPickUp ? 0 : number;
  }
  return 0;
};

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

/** A name for the copy of a section: A2 after A, A3 where there is an A2. */
export const copyLabel = (chart: Chart, label: string): string => {
  if (label === '') return freeLetter(chart);
  const taken = new Set(chart.sections.map((section) => section.label));
  const bare = label.replace(/ ?\d+$/, '');
  let number = 2;
  while (taken.has(`${bare}${number}`)) number++;
  return `${bare}${number}`;
};
