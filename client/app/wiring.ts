import type { Role } from '../../common/protocol/roles.ts';
import { type LiveConnection, type LiveSocket, openLive } from '../net/live-socket.ts';
import { createSharedClock } from '../net/shared-clock.ts';
import { openSyncRoom } from '../net/sync-room.ts';
import { watchWaking } from '../net/wake-watch.ts';
import type { Timers } from '../state/board-parts.ts';
import { createBoard, type OpenBoard } from '../state/create-board.ts';
import { derive } from '../state/derive.ts';
import { openOfflineCopy } from '../storage/offline-copy.ts';
import { openUnsentList } from '../storage/unsent-list.ts';
import type { Services } from './services.ts';

const timers: Timers = {
  nowMs: () => performance.now(),
  after: (ms, run) => {
    const timer = setTimeout(run, ms);
    return () => clearTimeout(timer);
  },
};

/**
 * Joins network, storage and state into the board of one band. It lives until its `close` is called.
 * @param member id of this tab's stand
 */
export const openBand = (
  services: Services,
  band: string,
  role: Role,
  key: string,
  member: string,
): OpenBoard => {
  const socketOrigin = services.origin.replace(/^http/, 'ws');
  let live: LiveConnection | undefined;
  const clock = createSharedClock({
    localNow: () => performance.now(),
    wallNow: () => Date.now(),
    send: (ping) => live?.ping(ping) ?? false,
    setTimer: (run, afterMs) => setTimeout(run, afterMs),
    clearTimer: (timer) => clearTimeout(timer),
  });
  const access = { key, member, proof: services.proof };
  const query = new URLSearchParams(access);
  const connection = openLive({
    open: () => new WebSocket(`${socketOrigin}/live/${band}?${query}`) as LiveSocket,
    nowMs: timers.nowMs,
    after: timers.after,
    makeId: services.makeId,
    random: Math.random,
    clock,
  });
  live = connection;
  const stopWaking = watchWaking(connection.wake);
  const board = createBoard({
    band,
    role,
    member,
    live: connection,
    clock,
    timers,
    makeId: services.makeId,
    me: derive([services.settings], ({ name, part }) => ({ name, part })),
    unsent: openUnsentList(services.tabletStore, band),
    openCopy: (document, doc) => openOfflineCopy(`${band}/${document}`, doc),
    openRoom: (document, doc, readOnly) =>
      openSyncRoom(`${socketOrigin}/sync`, `${band}/${document}`, access, doc, readOnly, Math.random),
  });
  return {
    ...board,
    close: () => {
      stopWaking();
      board.close();
      clock.close();
    },
  };
};
