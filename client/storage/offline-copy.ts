import type { IndexeddbPersistence } from 'y-indexeddb';
import type * as Y from 'yjs';
import type { OfflineCopy } from '../state/board-parts.ts';

/** Whether this browser lets us keep documents: a private window may refuse. Asked once a page. */
let usable: Promise<boolean> | undefined;

const isUsable = (): Promise<boolean> => {
  usable ??= new Promise((answer) => {
    try {
      const probe = indexedDB.open('tillcue.probe');
      probe.onsuccess = () => {
        probe.result.close();
        answer(true);
      };
      probe.onerror = () => answer(false);
      probe.onblocked = () => answer(false);
      setTimeout(() => answer(false), 2000);
    } catch (error) {
      console.warn('This browser keeps no offline copies.', error);
      answer(false);
    }
  });
  return usable;
};

/** What keeps the copies comes after the page's first picture; where it does not come at once, it is asked for again. */
const AGAIN_MS = 5000;

const loadKeeper = async (): Promise<typeof IndexeddbPersistence> => {
  for (;;) {
    try {
      return (await import('y-indexeddb')).IndexeddbPersistence;
    } catch (error) {
      console.warn('What keeps offline copies did not come; asked for again.', error);
      await new Promise((done) => setTimeout(done, AGAIN_MS));
    }
  }
};

/** Keeps a copy of a document on this tablet, so that it is there when the relay is not. */
export const openOfflineCopy = (room: string, doc: Y.Doc): OfflineCopy => {
  let persistence: IndexeddbPersistence | null = null;
  let closed = false;
  const load = async () => {
    if (!(await isUsable()) || closed) return;
    const Keeper = await loadKeeper();
    if (closed) return;
    persistence = new Keeper(`tillcue.${room}`, doc);
    await persistence.whenSynced;
  };
  return {
    // A failing disk must not keep anybody from playing: the relay has the document.
    loaded: load().catch((error: unknown) => {
      console.warn(`The offline copy of ${room} could not be read.`, error);
    }),
    close: () => {
      closed = true;
      persistence?.destroy().catch((error: unknown) => console.warn('An offline copy did not close.', error));
    },
  };
};
