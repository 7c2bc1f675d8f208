import type { Chart } from '../../common/chart/chart.ts';
import { printMusicLine } from '../../common/chart/print-music-line.ts';
import { readChart } from '../../common/chart/read-chart.ts';
import { addBars, addSection } from '../../common/document/edit-chart.ts';
import type { ChartHandle } from '../state/chart-handle.ts';
import { makeId } from '../state/make-id.ts';
import { barAt, barsInOrder } from './neighbours.ts';

/** The chosen bars as a line of chart text each, as they would stand in the chart: `| Fm7 | Bb7 |`. */
export const copyText = (chart: Chart, chosen: readonly string[]): string => {
  const lines: string[] = [];
  for (const { bars } of chart.sections) {
    let line = bars.slice(0, 0);
    for (const bar of bars) {
      if (chosen.includes(bar.id)) line = [...line, bar];
      if (line.length > 0 && (bar.lineEnd || bar === bars.at(-1))) {
        lines.push(printMusicLine(line, 0));
        line = [];
      }
    }
  }
  return lines.join('\n');
};

/**
 * Puts chart text behind a bar, or at the end: its bars with their signs, sections of their own where it names some.
 * Gives the bars that were put in; none where the text holds no music.
 */
export const pasteText = (
  handle: ChartHandle,
  chart: Chart,
  after: string | null,
  text: string,
): string[] => {
  const { doc, origin } = handle;
  const asMusic = text.includes('|') ? text : `| ${text.trim()} |`;
  const pasted = readChart(asMusic, makeId).chart.sections.filter(({ bars }) => bars.length > 0);
  const at = (after === null ? null : barAt(chart, after)) ?? barsInOrder(chart).at(-1) ?? null;
  if (text.trim() === '' || pasted.length === 0) return [];
  return doc.transact(() => {
    let section = at?.section.id ?? chart.sections.at(-1)?.id ?? null;
    let behind = at?.bar.id ?? null;
    return pasted.flatMap(({ label, bars }) => {
      if (section === null || label !== '') {
        section = addSection(doc, label || 'A', section, makeId, origin);
        behind = null;
      }
      const contents = bars.map(({ id: _, ...content }, index) => ({
        ...content,
        // The last line goes on with what it is put before, but not where a line has just ended.
        lineEnd: content.lineEnd && (index < bars.length - 1 || label !== '' || at?.bar.lineEnd === true),
      }));
      const ids = addBars(doc, section, behind, contents, makeId, origin);
      behind = ids.at(-1) ?? behind;
      return ids;
    });
  }, origin);
};
