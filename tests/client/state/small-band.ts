import {
  Awareness,
  applyAwarenessUpdate,
  encodeAwarenessUpdate,
  removeAwarenessStates,
} from 'y-protocols/awareness';
import * as Y from 'yjs';
import type { BoardParts, Room, RoomState } from '../../../client/state/board-parts.ts';
import { createBoard, type OpenBoard } from '../../../client/state/create-board.ts';
import type { LinkState } from '../../../client/state/link-state.ts';
import { type Settable, settable } from '../../../client/state/observable.ts';
import { writeLeading } from '../../../common/document/leading-document.ts';
import { countingIds } from '../../../common/ids.ts';
import type { Role } from '../../../common/protocol/roles.ts';
import { ok } from '../../../common/result.ts';
import { sharedMs } from '../../../common/units.ts';

/** A band without a network: what one board writes is with the others at once, while they are connected. */
export interface SmallBand {
  readonly join: (name: string, role: Role) => Stand;
  /** What the relay holds. */
  readonly document: (name: string) => Y.Doc;
  readonly advance: (ms: number) => void;
  /** The relay takes nothing while the book is locked, and asks for it afterwards. */
  readonly lock: (locked: boolean) => void;
}

export interface Stand {
  readonly board: OpenBoard;
  readonly link: Settable<LinkState>;
  /** Whether the relay says that what came is on its disk. */
  readonly acknowledges: Settable<boolean>;
  readonly unsent: Set<string>;
  readonly rooms: Map<string, number>;
  readonly me: Settable<{ name: string; part: string }>;
  readonly closeRoom: (name: string, words: string) => void;
}

export const smallBand = (): SmallBand => {
  const documents = new Map<string, Y.Doc>();
  const rooms = new Map<string, Set<{ doc: Y.Doc; awareness: Awareness; connected: () => boolean }>>();
  const timers: { atMs: number; run: () => void }[] = [];
  let nowMs = 0;
  const locked = settable(false);
  const document = (name: string): Y.Doc => {
    const known = documents.get(name) ?? new Y.Doc();
    documents.set(name, known);
    return known;
  };
  const join = (name: string, role: Role): Stand => {
    const link = settable<LinkState>({ state: 'on' });
    const acknowledges = settable(true);
    const unsent = new Set<string>();
    const opened = new Map<string, number>();
    const states = new Map<string, Settable<RoomState>>();
    const member = `m-${name}`;
    const openRoom = (room: string, doc: Y.Doc, readOnly: boolean): Room => {
      opened.set(room, (opened.get(room) ?? 0) + 1);
      const relayDoc = document(room);
      const awareness = new Awareness(doc);
      const state = settable<RoomState>(UNCONNECTED);
      const takesWrites = () => !readOnly && !locked.get();
      states.set(room, state);
      const remoteOrigin = { room };
      const peers = rooms.get(room) ?? new Set();
      rooms.set(room, peers);
      const isOn = () => state.get().connected;
      const mine = { doc, awareness, connected: isOn };
      const toRelay = (update: Uint8Array, origin: unknown) => {
        if (origin === remoteOrigin || !takesWrites() || !isOn()) return;
        Y.applyUpdate(relayDoc, update, mine);
        if (!acknowledges.get()) state.set({ ...state.get(), sending: true });
      };
      const fromRelay = (update: Uint8Array, origin: unknown) => {
        if (origin !== mine && isOn()) Y.applyUpdate(doc, update, remoteOrigin);
      };
      const stopAcks = acknowledges.subscribe(() => {
        if (acknowledges.get()) state.set({ ...state.get(), sending: false });
      });
      const stopLock = locked.subscribe(() => {
        if (!isOn()) return;
        if (takesWrites()) Y.applyUpdate(relayDoc, Y.encodeStateAsUpdate(doc), mine);
        const sending = !takesWrites() || !acknowledges.get();
        if (!readOnly) state.set({ ...state.get(), writable: takesWrites(), sending });
      });
      const tell = (clients: number[], to: Awareness, from: Awareness) =>
        applyAwarenessUpdate(to, encodeAwarenessUpdate(from, clients), 'peer');
      awareness.on('update', (_changes: unknown, origin: unknown) => {
        if (origin === 'peer' || !isOn()) return;
        for (const peer of peers)
          if (peer !== mine && peer.connected()) tell([doc.clientID], peer.awareness, awareness);
      });
      doc.on('update', toRelay);
      relayDoc.on('update', fromRelay);
      peers.add(mine);
      const drop = () => {
        if (!isOn()) return;
        for (const peer of peers)
          if (peer !== mine) removeAwarenessStates(peer.awareness, [doc.clientID], 'peer');
        state.set({ ...state.get(), connected: false, synced: false, writable: false });
      };
      return {
        doc,
        awareness,
        state,
        remoteOrigin,
        connect: () => {
          if (isOn() || link.get().state !== 'on') return;
          state.set({ ...state.get(), connected: true, sending: true });
          Y.applyUpdate(doc, Y.encodeStateAsUpdate(relayDoc), remoteOrigin);
          if (takesWrites()) Y.applyUpdate(relayDoc, Y.encodeStateAsUpdate(doc), mine);
          for (const peer of peers) {
            if (peer === mine || !peer.connected()) continue;
            tell([doc.clientID], peer.awareness, awareness);
            tell([peer.doc.clientID], awareness, peer.awareness);
          }
          const writable = takesWrites();
          const sending = !readOnly && (!writable || !acknowledges.get());
          state.set({ connected: true, synced: true, writable, sending, closed: null });
        },
        drop,
        close: () => {
          drop();
          stopAcks();
          stopLock();
          peers.delete(mine);
          relayDoc.off('update', fromRelay);
          awareness.destroy();
        },
      };
    };
    const me = settable({ name, part: 'guitar' });
    const parts: BoardParts = {
      band: 'b1',
      role,
      member,
      live: {
        state: link,
        call: async (cue) => ok({ id: 'c1', cue, calledAtMs: 0 }),
        takeBack: async () => ok(null),
        lead: async () => ok(null),
        close: () => {},
      },
      clock: {
        sharedNow: () => sharedMs(nowMs),
        onReseek: () => () => {},
        clock: settable({ ready: true, errorMs: 1, roundTripMs: 2 }),
      },
      openRoom,
      openCopy: () => ({ loaded: Promise.resolve(), close: () => {} }),
      unsent: {
        get: () => [...unsent],
        set: (room, value) => {
          if (value) unsent.add(room);
          else unsent.delete(room);
        },
      },
      timers: {
        nowMs: () => nowMs,
        after: (ms, run) => {
          const timer = { atMs: nowMs + ms, run };
          timers.push(timer);
          return () => {
            if (timers.includes(timer)) timers.splice(timers.indexOf(timer), 1);
          };
        },
      },
      makeId: countingIds(member),
      me,
    };
    return {
      board: createBoard(parts),
      link,
      acknowledges,
      unsent,
      rooms: opened,
      me,
      closeRoom: (room, words) => states.get(room)?.set({ ...UNCONNECTED, closed: words }),
    };
  };
  const advance = (ms: number) => {
    const untilMs = nowMs + ms;
    for (;;) {
      const [next] = timers.filter(({ atMs }) => atMs <= untilMs).sort((a, b) => a.atMs - b.atMs);
      if (!next) break;
      timers.splice(timers.indexOf(next), 1);
      nowMs = Math.max(nowMs, next.atMs);
      next.run();
    }
    nowMs = untilMs;
  };
  const lock = (now: boolean) => {
    writeLeading(document('stage'), now ? { locked: true } : {});
    locked.set(now);
  };
  return { join, document, advance, lock };
};

const UNCONNECTED: RoomState = {
  connected: false,
  synced: false,
  writable: false,
  sending: false,
  closed: null,
};

/** Lets what was promised at once come true. */
export const settled = (): Promise<void> => new Promise((done) => setTimeout(done, 0));
