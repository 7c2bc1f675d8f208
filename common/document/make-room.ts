import type * as Y from 'yjs';
import type { MakeId } from '../ids.ts';
import type { Ordered } from './by-order.ts';
import { type Entry, editableEntry, isEntry, textField } from './entry.ts';
import { blockOrderKeys, canGoBetween, firstOrderKeys } from './order-key.ts';

/**
 * Order keys for a block of n things that comes after another one.
 *
 * Keys of other programs may be malformed or equal, so that nothing goes between them: then the siblings get
 * fresh keys, in the order in which they are read.
 * @param siblings the things the block comes among, in order; without those that are being moved
 * @param after id of the one it comes after; null: it comes first. One that is deleted still knows its place.
 */
export const makeRoom = (
  map: Y.Map<unknown>,
  siblings: readonly Ordered[],
  after: string | null,
  n: number,
  makeId: MakeId,
): string[] => {
  if (n === 0) return [];
  const index = indexAfter(map, siblings, after);
  const orders = siblings.map(({ order }) => order);
  if (canGoBetween(orders[index - 1] ?? null, orders[index] ?? null)) {
    return blockOrderKeys(orders[index - 1] ?? null, orders[index] ?? null, n, makeId());
  }
  const fresh = firstOrderKeys(siblings.length);
  siblings.forEach(({ id }, at) => {
    editableEntry(map, id)?.set('order', fresh[at]);
  });
  return blockOrderKeys(fresh[index - 1] ?? null, fresh[index] ?? null, n, makeId());
};

const indexAfter = (map: Y.Map<unknown>, siblings: readonly Ordered[], after: string | null): number => {
  if (after === null) return 0;
  const found = siblings.findIndex(({ id }) => id === after);
  if (found !== -1) return found + 1;
  const gone: unknown = map.get(after);
  if (!isEntry(gone)) return siblings.length;
  const order = textField(gone as Entry, 'order');
  return siblings.filter((sibling) => sibling.order <= order).length;
};
