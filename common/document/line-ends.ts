import type * as Y from 'yjs';
import type { Bar } from '../chart/chart.ts';
import { barsOf, readChartDocument } from './chart-document.ts';
import { editableEntry, setFields } from './entry.ts';

/** Whether the bars begin where a line begins and end where one ends. */
export const isWholeLines = (
  sections: readonly { readonly bars: readonly Bar[] }[],
  moved: readonly Bar[],
): boolean => {
  const first = moved[0];
  if (!first || moved.at(-1)?.lineEnd !== true) return false;
  return sections.some(({ bars }) => {
    const index = bars.indexOf(first);
    return index === 0 || (index > 0 && bars[index - 1]?.lineEnd === true);
  });
};

/** A line's end goes from the bar `after` to what is put behind it; gives whether it did. */
export const takeLineEnd = (doc: Y.Doc, after: string | null, hasOwn: boolean): boolean => {
  const entry = after === null || hasOwn ? null : editableEntry(barsOf(doc), after);
  if (entry?.get('lineEnd') !== true) return false;
  setFields(entry, { lineEnd: false });
  return true;
};

/** Line ends of bars that go away pass to the bar before that stays. */
export const leaveLineEnds = (doc: Y.Doc, going: ReadonlySet<string>): void => {
  for (const { bars } of readChartDocument(doc).sections) {
    let staying: string | null = null;
    for (const bar of bars) {
      if (!going.has(bar.id)) staying = bar.id;
      else if (bar.lineEnd && staying !== null) {
        const entry = editableEntry(barsOf(doc), staying);
        if (entry) setFields(entry, { lineEnd: true });
      }
    }
  }
};
