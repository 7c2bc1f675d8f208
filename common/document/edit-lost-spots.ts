import type * as Y from 'yjs';
import type { AddedSpot } from '../form/lost-spots/lost-spots.ts';
import type { MakeId } from '../ids.ts';
import { livingEntries } from './chart-document.ts';
import { markDeleted, WATCHED_IN_SPOTS } from './deletion.ts';
import { editableEntry, writeEntry } from './entry.ts';
import { addedSpotsOf, dismissedSpotsOf } from './lost-spots-said.ts';
import { makeRoom } from './make-room.ts';
import { stampSchema } from './schema-version.ts';

/*
 * Like the edits of a chart: each is one transaction with the origin given, so that undo finds it, and changes only what
 * differs.
 */

const edit = <Value>(doc: Y.Doc, origin: unknown, change: () => Value): Value =>
  doc.transact(() => {
    stampSchema(doc);
    return change();
  }, origin);

/** The band knows this spot well enough: it is marked and said no more. */
export const dismissSpot = (doc: Y.Doc, spot: string, origin?: unknown): void =>
  edit(doc, origin, () => {
    if (dismissedSpotsOf(doc).get(spot) !== true) dismissedSpotsOf(doc).set(spot, true);
  });

/** Takes a dismissal back, whoever said it. */
export const bringBackSpot = (doc: Y.Doc, spot: string, origin?: unknown): void =>
  edit(doc, origin, () => {
    if (dismissedSpotsOf(doc).has(spot)) dismissedSpotsOf(doc).delete(spot);
  });

/** Adds a spot of the band's own and gives its id. */
export const addSpot = (doc: Y.Doc, spot: Omit<AddedSpot, 'id'>, makeId: MakeId, origin?: unknown): string =>
  edit(doc, origin, () => {
    const id = makeId();
    const map = addedSpotsOf(doc);
    const siblings = livingEntries(map, WATCHED_IN_SPOTS);
    const [order] = makeRoom(map, siblings, siblings.at(-1)?.id ?? null, 1, makeId);
    writeEntry(map, id, { ...spot, order });
    return id;
  });

/** Deletes a spot that was added. */
export const deleteSpot = (doc: Y.Doc, spot: string, origin?: unknown): void =>
  edit(doc, origin, () => {
    const entry = editableEntry(addedSpotsOf(doc), spot);
    if (entry) markDeleted(entry, WATCHED_IN_SPOTS);
  });
