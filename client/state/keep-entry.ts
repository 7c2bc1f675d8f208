import type * as Y from 'yjs';
import { keyTextOf, tempoOf } from '../../common/chart/head.ts';
import { headOf, readChartDocument } from '../../common/document/chart-document.ts';
import { setChartEntry } from '../../common/document/edit-book.ts';

/**
 * Keeps the book's index in step with a chart's head: whoever changes the head changes the entry too. What
 * comes from others is left to them.
 * @returns ends it
 */
export const keepEntry = (bookDoc: Y.Doc, id: string, doc: Y.Doc): (() => void) => {
  const changed = (transaction: Y.Transaction) => {
    if (!transaction.local || ![...transaction.changed.keys()].some((type) => Object.is(type, headOf(doc))))
      return;
    const chart = readChartDocument(doc);
    setChartEntry(bookDoc, id, {
      title: chart.head.title ?? '',
      by: chart.head.by ?? '',
      key: keyTextOf(chart),
      tempo: tempoOf(chart),
    });
  };
  doc.on('afterTransaction', changed);
  return () => doc.off('afterTransaction', changed);
};
