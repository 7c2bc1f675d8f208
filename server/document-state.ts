import * as Y from 'yjs';

/** Where one document's bytes are kept. */
export interface DocumentStorage {
  /** Oldest first; together they are the state. */
  readonly load: () => Uint8Array[];
  readonly append: (update: Uint8Array) => void;
  readonly compact: (snapshot: Uint8Array) => void;
}

/** What came of an update that was brought in. */
export type Applied =
  /** `news` is what was not known before, to be sent on; null where all of it was. */
  | { readonly outcome: 'applied'; readonly news: Uint8Array | null }
  /** Something it builds on is missing; what could be used is in `news`, the rest must be sent again with it. */
  | { readonly outcome: 'missing'; readonly news: Uint8Array | null }
  | { readonly outcome: 'unreadable' | 'tooLarge'; readonly news: null };

/**
 * The state of one document. It lives as stored bytes; a Y.Doc is built only when somebody writes or brings a
 * state vector. Everything here is synchronous, so that no document is ever seen half loaded.
 */
export interface DocumentState {
  /** The whole state as one update, and its state vector. */
  readonly whole: () => { readonly update: Uint8Array; readonly stateVector: Uint8Array };
  /** What somebody with this state vector lacks, as one update. */
  readonly since: (stateVector: Uint8Array) => Uint8Array;
  readonly apply: (update: Uint8Array) => Applied;
  /** Changes the document on the relay's own account, under a client id that no tablet has. */
  readonly write: (clientId: number, change: (doc: Y.Doc) => void) => Uint8Array | null;
  readonly read: <Value>(look: (doc: Y.Doc) => Value) => Value;
  readonly isEmpty: () => boolean;
  readonly storedRows: () => number;
  readonly hasDoc: () => boolean;
  /** Puts a snapshot in the place of the stored updates, where there are several. */
  readonly compact: () => void;
  /** Forgets the Y.Doc; the bytes stay. */
  readonly release: () => void;
}

const EMPTY_UPDATE = Uint8Array.of(0, 0);
const EMPTY_STATE_VECTOR = Uint8Array.of(0);

export const isEmptyUpdate = (update: Uint8Array): boolean =>
  update.length === 2 && update[0] === 0 && update[1] === 0;

export const isEmptyStateVector = (stateVector: Uint8Array): boolean =>
  stateVector.length === 1 && stateVector[0] === 0;

export const isStateVector = (bytes: Uint8Array): boolean => {
  try {
    Y.decodeStateVector(bytes);
    return true;
  } catch {
    // lib0 throws at the end of the bytes: it is cut short.
    return false;
  }
};

const isReadable = (update: Uint8Array): boolean => {
  try {
    Y.decodeUpdate(update);
    return true;
  } catch {
    // Yjs says only that it cannot go on; which byte it was tells nobody anything.
    return false;
  }
};

/**
 * @param limitBytes of the encoded state
 * @throws (from any call) where stored bytes cannot be read: nothing is then written over them
 */
export const documentState = (storage: DocumentStorage, limitBytes: number): DocumentState => {
  let doc: Y.Doc | null = null;
  let rows = 0;
  /** At least the size of the state. */
  let bytes = 0;
  let news: Uint8Array | null = null;
  let cached: { readonly update: Uint8Array; readonly stateVector: Uint8Array } | null = null;

  const build = (): Y.Doc => {
    if (doc !== null) return doc;
    const stored = storage.load();
    const built = new Y.Doc();
    built.transact(() => {
      for (const update of stored) Y.applyUpdate(built, update);
    });
    rows = stored.length;
    bytes = stored.reduce((sum, update) => sum + update.length, 0);
    built.on('update', (update: Uint8Array) => {
      news = news === null ? update : Y.mergeUpdates([news, update]);
    });
    doc = built;
    return built;
  };
  const takeNews = (): Uint8Array | null => {
    const taken = news;
    news = null;
    if (taken === null) return null;
    storage.append(taken);
    rows++;
    bytes += taken.length;
    cached = null;
    return taken;
  };
  const release = () => {
    doc?.destroy();
    doc = null;
    news = null;
  };
  const whole = () => {
    if (cached !== null) return cached;
    if (doc === null) {
      const stored = storage.load();
      rows = stored.length;
      const [only] = stored;
      if (only === undefined) cached = { update: EMPTY_UPDATE, stateVector: EMPTY_STATE_VECTOR };
      else if (stored.length === 1) {
        cached = { update: only, stateVector: Y.encodeStateVectorFromUpdate(only) };
      }
      if (cached !== null) return cached;
    }
    const built = build();
    cached = { update: Y.encodeStateAsUpdate(built), stateVector: Y.encodeStateVector(built) };
    return cached;
  };
  const exceeds = (built: Y.Doc, update: Uint8Array): boolean => {
    if (bytes + update.length <= limitBytes) return false;
    bytes = Y.encodeStateAsUpdate(built).length;
    return bytes + update.length > limitBytes;
  };
  return {
    whole,
    since: (stateVector) =>
      isEmptyStateVector(stateVector) ? whole().update : Y.encodeStateAsUpdate(build(), stateVector),
    apply: (update) => {
      if (!isReadable(update)) return { outcome: 'unreadable', news: null };
      const built = build();
      if (exceeds(built, update)) return { outcome: 'tooLarge', news: null };
      try {
        Y.applyUpdate(built, update);
      } catch {
        // It reads as an update but makes no sense in this document. What is stored is whole: begin from there.
        release();
        return { outcome: 'unreadable', news: null };
      }
      const missing = built.store.pendingStructs !== null || built.store.pendingDs !== null;
      // What cannot be placed yet is not kept here: the tablet is asked for everything we lack, and this is in it.
      built.store.pendingStructs = null;
      built.store.pendingDs = null;
      return { outcome: missing ? 'missing' : 'applied', news: takeNews() };
    },
    write: (clientId, change) => {
      const built = build();
      // Only now: Yjs gives up a client id that it meets in an update from elsewhere, and that is what loading is.
      built.clientID = clientId;
      built.transact(() => change(built));
      return takeNews();
    },
    read: (look) => look(build()),
    isEmpty: () => {
      build();
      return rows === 0;
    },
    storedRows: () => rows,
    hasDoc: () => doc !== null,
    compact: () => {
      if (rows < 2) return;
      storage.compact(whole().update);
      rows = 1;
      bytes = whole().update.length;
    },
    release,
  };
};
