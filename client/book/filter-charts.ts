import type { ChartEntry } from '../../common/document/book-document.ts';

/** Letters without their accents, without capitals: "Café" is found by "cafe". */
const folded = (text: string): string =>
  text
    .normalize('NFD')
    .replace(/\p{Mark}/gu, '')
    .toLowerCase();

/** The charts of the book whose title, writer or key hold every word searched for; those put away are left out. */
export const filterCharts = (charts: readonly ChartEntry[], search: string): ChartEntry[] => {
  const words = folded(search)
    .split(/\s+/)
    .filter((word) => word !== '');
  return charts.filter((chart) => {
    if (chart.deletedAtMs !== undefined) return false;
    const text = folded(`${chart.title} ${chart.by} ${chart.key}`);
    return words.every((word) => text.includes(word));
  });
};

/** Charts that were put away, the last one first. */
export const putAway = (charts: readonly ChartEntry[]): ChartEntry[] =>
  charts
    .filter((chart) => chart.deletedAtMs !== undefined)
    .sort((a, b) => (b.deletedAtMs ?? 0) - (a.deletedAtMs ?? 0));
