import type * as Y from 'yjs';
import type { MakeId } from '../ids.ts';
import { readChartDocument } from './chart-document.ts';
import { addBars, addSection } from './edit-chart.ts';

/**
 * Copies a section, bars with their signs and line ends, behind itself and gives the copy's id; null where there is no
 * such section. The road map stays as it is: the writer says when the copy is played.
 */
export const duplicateSection = (
  doc: Y.Doc,
  section: string,
  label: string,
  makeId: MakeId,
  origin?: unknown,
): string | null =>
  doc.transact(() => {
    const original = readChartDocument(doc).sections.find(({ id }) => id === section);
    if (!original) return null;
    const copy = addSection(doc, label, section, makeId, origin);
    const bars = original.bars.map(({ id: _, ...content }) => content);
    addBars(doc, copy, null, bars, makeId, origin);
    return copy;
  }, origin);
