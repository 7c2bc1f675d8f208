import { type LiveConnection, type LiveSocket, openLive } from '../../../client/net/live-socket.ts';
import { createSharedClock } from '../../../client/net/shared-clock.ts';
import { openSyncRoom } from '../../../client/net/sync-room.ts';
import type { Timers } from '../../../client/state/board-parts.ts';
import { createBoard, type OpenBoard } from '../../../client/state/create-board.ts';
import { settable } from '../../../client/state/observable.ts';
import { randomIds } from '../../../common/ids.ts';
import type { Role } from '../../../common/protocol/roles.ts';

/** A tablet without a screen: its own clock, its own link, and the very modules that a page has. */
export interface VirtualTablet {
  readonly member: string;
  readonly board: OpenBoard;
  /** Machine time, ms, at which its stand knew of a cue, by the cue's id. */
  readonly knewAtMs: ReadonlyMap<string, number>;
  /** Machine time, ms, at which a bare message was there. */
  readonly bareAtMs: ReadonlyMap<string, number>;
  readonly sendBare: (id: string) => void;
  readonly close: () => void;
}

export interface TabletParts {
  readonly relayUrl: string;
  readonly bareUrl: string;
  readonly band: string;
  readonly role: Role;
  readonly key: string;
  readonly member: string;
  readonly part: string;
  readonly random: () => number;
}

/** Tablets' clocks start anywhere and run so much too fast or slow at most. */
const MOST_SKEW_PPM = 80;
/** About as long as the frame of a cue on the stage document. */
const BARE_BYTES = 110;

/** Needs `globalThis.WebSocket` to be a class of sockets with the links. */
export const openVirtualTablet = (parts: TabletParts): VirtualTablet => {
  const { relayUrl, band, role, key, member, random } = parts;
  const offsetMs = random() * 1e6;
  const rate = 1 + ((random() * 2 - 1) * MOST_SKEW_PPM) / 1e6;
  const localNow = () => offsetMs + performance.now() * rate;
  const makeId = randomIds((count) => Uint8Array.from({ length: count }, () => Math.floor(random() * 256)));
  const timers: Timers = {
    nowMs: localNow,
    after: (ms, run) => {
      const timer = setTimeout(run, ms);
      return () => clearTimeout(timer);
    },
  };
  let live: LiveConnection | undefined;
  const clock = createSharedClock({
    localNow,
    wallNow: () => Date.now(),
    send: (ping) => live?.ping(ping) ?? false,
    setTimer: (run, afterMs) => setTimeout(run, afterMs),
    clearTimer: (timer) => clearTimeout(timer),
  });
  const access = { key, member, proof: makeId() };
  const connection = openLive({
    open: () => new WebSocket(`${relayUrl}/live/${band}?${new URLSearchParams(access)}`) as LiveSocket,
    ...timers,
    makeId,
    random,
    clock,
  });
  live = connection;
  const unsent = new Set<string>();
  const board = createBoard({
    band,
    role,
    member,
    live: connection,
    clock,
    timers,
    makeId,
    me: settable({ name: member, part: parts.part }),
    unsent: {
      get: () => [...unsent],
      set: (document, isUnsent) => {
        if (isUnsent) unsent.add(document);
        else unsent.delete(document);
      },
    },
    openCopy: () => ({ loaded: Promise.resolve(), close: () => {} }),
    openRoom: (document, doc, readOnly) =>
      openSyncRoom(`${relayUrl}/sync`, `${band}/${document}`, access, doc, readOnly, random),
  });

  const knewAtMs = new Map<string, number>();
  board.stage.subscribe(() => {
    // Folded before the time is taken: a stand knows when it can show.
    const cues = board.stage.get().take?.cues ?? [];
    const atMs = performance.now();
    for (let nth = cues.length - 1; nth >= 0; nth--) {
      const id = cues[nth]?.id ?? '';
      if (knewAtMs.has(id)) break;
      knewAtMs.set(id, atMs);
    }
  });
  const bareAtMs = new Map<string, number>();
  const bare = new WebSocket(`${parts.bareUrl}?member=${member}`);
  bare.onmessage = ({ data }) => {
    const atMs = performance.now();
    bareAtMs.set(
      Buffer.from(data as ArrayBuffer)
        .toString()
        .trim(),
      atMs,
    );
  };
  return {
    member,
    board,
    knewAtMs,
    bareAtMs,
    sendBare: (id) => bare.send(id.padEnd(BARE_BYTES)),
    close: () => {
      bare.close();
      board.close();
      clock.close();
    },
  };
};
