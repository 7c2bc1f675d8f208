import { LIMITS } from '../common/protocol/limits.ts';
import { documentState } from './document-state.ts';
import type { Log } from './log.ts';
import { createRoom, type Room } from './room.ts';
import type { Store } from './store.ts';

/** The rooms in which somebody is, or was a moment ago; made when they are asked for. */
export interface Rooms {
  readonly open: (band: string, document: string) => Room;
  /** The book is unlocked: everybody in the band's rooms is asked for what they wrote meanwhile. */
  readonly askWriters: (band: string) => void;
  /** Everybody is told what has only been renewed. */
  readonly renew: () => void;
  /** Rooms that have not been used for a while are put to rest; empty ones go. */
  readonly sweep: () => void;
  readonly count: () => number;
  readonly onChange: (listen: (band: string, document: string) => void) => void;
}

interface Opened {
  readonly room: Room;
  lastUsedMs: number;
  resting: boolean;
}

/** An empty room goes, one in which nobody writes rests, after so long. */
const EMPTY_MS = 5_000;
const QUIET_MS = 60_000;
/** Rooms put to rest in one sweep: each may encode a document, and the clock must not wait. */
const RESTS_PER_SWEEP = 10;

/**
 * @param firstClock where the awareness clocks of a new room begin; rises from call to call, over restarts too
 * @param isLocked whether a band's book and charts are locked for the gig
 */
export const createRooms = (
  store: Store,
  log: Log,
  nowMs: () => number,
  firstClock: () => number,
  isLocked: (band: string) => boolean,
): Rooms => {
  const rooms = new Map<string, Opened>();
  const listeners: ((band: string, document: string) => void)[] = [];

  const make = (band: string, document: string, id: string): Opened => {
    const state = documentState(
      {
        load: () => store.load(id),
        append: (update) => store.append(id, update),
        compact: (snapshot) => store.compact(id, snapshot),
      },
      LIMITS.documentBytes,
    );
    const opened: Opened = {
      lastUsedMs: nowMs(),
      resting: true,
      room: createRoom({
        state,
        afterCommit: store.afterCommit,
        afterSync: store.afterSync,
        mayBegin: () => store.documentsOf(band).length < LIMITS.documentsPerBand,
        isLocked: () => document !== 'stage' && isLocked(band),
        changed: () => {
          for (const listen of listeners) listen(band, document);
        },
        soon: (run) => void setImmediate(run),
        firstClock: firstClock(),
      }),
    };
    return opened;
  };
  return {
    open: (band, document) => {
      const id = `${band}/${document}`;
      let opened = rooms.get(id);
      if (!opened) {
        opened = make(band, document, id);
        rooms.set(id, opened);
      }
      opened.lastUsedMs = nowMs();
      opened.resting = false;
      return opened.room;
    },
    askWriters: (band) => {
      for (const [id, { room }] of rooms) {
        if (!id.startsWith(`${band}/`)) continue;
        try {
          room.askWriters();
        } catch (error) {
          log.error('a document cannot be used', { document: id, error });
        }
      }
    },
    renew: () => {
      for (const { room } of rooms.values()) room.renew();
    },
    sweep: () => {
      const now = nowMs();
      let rests = 0;
      for (const [id, opened] of rooms) {
        if (rests >= RESTS_PER_SWEEP) return;
        const isEmpty = opened.room.peers().size === 0;
        if (now - opened.lastUsedMs < (isEmpty ? EMPTY_MS : QUIET_MS)) continue;
        if (!opened.resting) {
          rests++;
          opened.resting = true;
          try {
            opened.room.rest();
          } catch (error) {
            log.error('a document could not be put to rest', { document: id, error });
          }
        }
        if (isEmpty) rooms.delete(id);
      }
    },
    count: () => rooms.size,
    onChange: (listen) => {
      listeners.push(listen);
    },
  };
};
