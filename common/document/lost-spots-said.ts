import type * as Y from 'yjs';
import type { AddedSpot } from '../form/lost-spots/lost-spots.ts';
import { livingEntries } from './chart-document.ts';
import { WATCHED_IN_SPOTS } from './deletion.ts';
import { textField } from './entry.ts';

/** What whoever writes the chart says about its lost spots. */
export interface LostSpotsSaid {
  /** Ids of those that the band knows well enough, in a fixed order. An id of bars that are gone is kept: undo brings them back. */
  readonly dismissed: readonly string[];
  /** Oldest first. Their bars may have been deleted since. */
  readonly added: readonly AddedSpot[];
}

/** Spot id → true. Two who dismiss one spot at once say the same. */
export const dismissedSpotsOf = (doc: Y.Doc) => doc.getMap<unknown>('dismissedSpots');
export const addedSpotsOf = (doc: Y.Doc) => doc.getMap<unknown>('addedSpots');

/** What is said in a chart document; nothing where it was written before anybody could. Never throws. */
export const readLostSpotsSaid = (doc: Y.Doc): LostSpotsSaid => ({
  dismissed: [...dismissedSpotsOf(doc)].flatMap(([id, value]) => (value === true ? [id] : [])).sort(),
  added: livingEntries(addedSpotsOf(doc), WATCHED_IN_SPOTS).map(({ id, entry }) => ({
    id,
    from: textField(entry, 'from'),
    to: textField(entry, 'to'),
    words: textField(entry, 'words'),
  })),
});
