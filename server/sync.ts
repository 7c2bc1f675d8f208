import type { WebSocket } from 'ws';
import { mayLead, mayWrite } from '../common/protocol/roles.ts';
import { type Connection, openConnection } from './connection.ts';
import type { Crowd } from './crowd.ts';
import type { Leads } from './leads.ts';
import type { Log } from './log.ts';
import type { Peer } from './room.ts';
import type { Rooms } from './rooms.ts';
import { awarenessFrame } from './sync-frame.ts';
import type { Visitor } from './visitor.ts';

/** y-websocket gives up a connection on which it has heard nothing for 30 s: say nothing in particular before. */
const SILENCE_MS = 8_000;
const NOTHING = awarenessFrame([]);

export interface SyncSurroundings {
  readonly rooms: Rooms;
  readonly leads: Leads;
  readonly crowd: Crowd;
  readonly nowMs: () => number;
  readonly log: Log;
}

/** Brings a websocket that was let in to its document. */
export const joinSync = (
  socket: WebSocket,
  visitor: Visitor & { readonly document: string },
  around: SyncSurroundings,
): void => {
  const { rooms, leads, crowd, nowMs, log } = around;
  const { band, document, role, member: name } = visitor;
  const guarded = (act: () => void) => {
    try {
      act();
    } catch (error) {
      // What is stored cannot be read. It is left as it is; this document's tablets try again later, others go on.
      log.error('a document cannot be used', { band, document, error });
      connection.close('brokenDocument');
    }
  };
  const connection: Connection = openConnection(
    socket,
    { band, role },
    {
      message: (data, isBinary) => {
        if (!isBinary) connection.close('badMessage');
        else guarded(() => rooms.open(band, document).receive(peer, data));
      },
      closed: () => {
        rooms.open(band, document).leave(peer);
        crowd.leave(member);
      },
      heard: () => crowd.heard(member),
    },
    nowMs,
    log,
  );
  const peer: Peer = {
    role,
    mayWrite: mayWrite(role, document),
    mayPoint: () => mayLead(role, name, leads.of(band)),
    wantsAcks: visitor.wantsAcks,
    send: connection.send,
    close: connection.close,
    probe: connection.probe,
  };
  const member = {
    connection,
    visited: () => {
      if (nowMs() - connection.lastSentMs() >= SILENCE_MS) connection.send(NOTHING);
    },
  };
  crowd.join(member);
  guarded(() => rooms.open(band, document).join(peer));
};
