import type * as Y from 'yjs';
import type { MakeId } from '../ids.ts';
import type { Ordered } from './by-order.ts';
import { barsOf, livingEntries, RECOVERED, readChartDocument } from './chart-document.ts';
import { WATCHED_IN_BARS } from './deletion.ts';
import { editableEntry, isEntry, textField } from './entry.ts';
import { makeRoom } from './make-room.ts';
import { firstOrderKeys } from './order-key.ts';

/**
 * Order keys for n bars that come into a section, after one of its bars (null: first).
 * @param moving ids of bars on their way there, which don't count as its bars
 */
export const roomForBars = (
  doc: Y.Doc,
  section: string,
  after: string | null,
  n: number,
  makeId: MakeId,
  moving: ReadonlySet<string> = new Set(),
): string[] => {
  if (section === RECOVERED) settleRecovered(doc);
  const siblings = siblingBars(doc, section).filter(({ id }) => !moving.has(id));
  return makeRoom(barsOf(doc), siblings, after, n, makeId);
};

const siblingBars = (doc: Y.Doc, section: string): Ordered[] =>
  livingEntries(barsOf(doc), WATCHED_IN_BARS).filter(({ entry }) => textField(entry, 'section') === section);

/** Bars that only stand in "recovered" because their section is gone now belong there, in the order shown. */
const settleRecovered = (doc: Y.Doc): void => {
  const shown = readChartDocument(doc).sections.find(({ id }) => id === RECOVERED)?.bars ?? [];
  const isHomeless = (id: string) => {
    const entry = barsOf(doc).get(id);
    return isEntry(entry) && textField(entry, 'section') !== RECOVERED;
  };
  if (!shown.some(({ id }) => isHomeless(id))) return;
  const orders = firstOrderKeys(shown.length);
  shown.forEach(({ id }, index) => {
    const entry = editableEntry(barsOf(doc), id);
    entry?.set('section', RECOVERED);
    entry?.set('order', orders[index]);
  });
};
