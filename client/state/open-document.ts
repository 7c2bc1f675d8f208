import * as Y from 'yjs';
import type { BoardParts, OfflineCopy, Room } from './board-parts.ts';
import { derive } from './derive.ts';
import { type Observable, settable } from './observable.ts';

/** One document with its copy on this tablet and its connection to the relay. */
export interface OpenDocument {
  readonly name: string;
  readonly doc: Y.Doc;
  readonly room: Room;
  /** Something of it is here, from the relay or from this tablet, even if that is an empty document. */
  readonly here: Observable<boolean>;
  /** 'saving' until the relay has everything typed here on its disk; 'kept' while it cannot be reached or takes nothing. */
  readonly saved: Observable<'saved' | 'saving' | 'kept'>;
  readonly close: () => void;
}

const holdsAnything = (doc: Y.Doc): boolean => doc.store.clients.size > 0;

/** Reading the copy is given this long before the relay is asked without it. */
const COPY_MS = 1500;

/**
 * Opens a document: first what this tablet has, then the relay.
 * @param name 'book', 'stage' or 'chart.<id>'
 * @param readOnly this role writes nothing into it
 */
export const openDocument = (
  parts: Pick<BoardParts, 'openRoom' | 'openCopy' | 'unsent' | 'timers'>,
  name: string,
  readOnly: boolean,
): OpenDocument => {
  const doc = new Y.Doc();
  const copy: OfflineCopy = parts.openCopy(name, doc);
  const room = parts.openRoom(name, doc, readOnly);
  const here = settable(false);
  const unsent = settable(parts.unsent.get().includes(name));
  let closed = false;

  const notice = () => {
    if (holdsAnything(doc) || room.state.get().synced) here.set(true);
  };
  const setUnsent = (value: boolean) => {
    unsent.set(value);
    parts.unsent.set(name, value);
  };
  doc.on('update', (_update: Uint8Array, _origin: unknown, _doc: Y.Doc, transaction: Y.Transaction) => {
    if (transaction.local) setUnsent(true);
    notice();
  });
  const stopWatching = room.state.subscribe(() => {
    const { connected, synced, sending } = room.state.get();
    if (connected && synced && !sending && unsent.get()) setUnsent(false);
    notice();
  });
  // The relay is asked with what the copy holds, so that only the difference travels.
  const connect = () => {
    stopWaiting();
    if (!closed) room.connect();
  };
  const stopWaiting = parts.timers.after(COPY_MS, connect);
  copy.loaded.then(() => {
    notice();
    connect();
  });

  return {
    name,
    doc,
    room,
    here,
    saved: derive([unsent, room.state], (isUnsent, { writable }) =>
      !isUnsent ? 'saved' : writable ? 'saving' : 'kept',
    ),
    close: () => {
      closed = true;
      stopWaiting();
      stopWatching();
      room.close();
      copy.close();
      doc.destroy();
    },
  };
};
