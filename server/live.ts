import type { WebSocket } from 'ws';
import { type Ping, type RelayMessage, readTabletMessage } from '../common/protocol/messages.ts';
import { mayCall } from '../common/protocol/roles.ts';
import type { Conductor, Reply } from './conductor.ts';
import { type Connection, openConnection } from './connection.ts';
import type { Crowd } from './crowd.ts';
import type { Log } from './log.ts';
import type { SharedTime } from './shared-time.ts';
import type { Visitor } from './visitor.ts';

const READ_ONLY: Reply = {
  ok: false,
  why: 'notAllowed',
  words: 'Only whoever leads can call cues. Open the leader’s link to lead.',
};
const UNREADABLE: Reply = {
  ok: false,
  why: 'unreadable',
  words: 'The relay does not know this call. Reload the page; it may be older than the relay.',
};

const parsed = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    // Not JSON: answered like every other message that cannot be read.
    return undefined;
  }
};

const idIn = (json: unknown): string =>
  typeof json === 'object' && json !== null && 'id' in json && typeof json.id === 'string' ? json.id : '';

/** The text of a pong, its second stamp taken last of all. */
const pongText = (ping: Ping, t1: number, time: SharedTime): string => {
  const start = `{"t":"pong","n":${ping.n},"t0":${ping.t0},"t1":${t1},"epoch":${JSON.stringify(time.epoch)},"t2":`;
  return `${start}${time.now()}}`;
};

/** Answers pings and takes calls on a websocket that was let in. */
export const joinLive = (
  socket: WebSocket,
  visitor: Visitor,
  conductor: Conductor,
  crowd: Crowd,
  time: SharedTime,
  nowMs: () => number,
  log: Log,
): void => {
  const { band, role } = visitor;
  const answer = (id: string) => (reply: Reply) => {
    const message: RelayMessage = reply.ok
      ? { t: 'called', id, cue: reply.called.cue, calledAtMs: reply.called.calledAtMs }
      : { t: 'refused', id, why: reply.why, words: reply.words };
    connection.send(JSON.stringify(message));
  };
  const message = (data: Buffer, isBinary: boolean) => {
    const t1 = time.now();
    if (isBinary) {
      connection.close('badMessage');
      return;
    }
    const json = parsed(data.toString());
    const read = readTabletMessage(json);
    if (read === null) answer(idIn(json))(UNREADABLE);
    else if (read.t === 'ping') connection.send(pongText(read, t1, time));
    else if (!mayCall(role, false)) answer(read.id)(READ_ONLY);
    else {
      const by = visitor.member === null ? {} : { by: visitor.member };
      if (read.t === 'call') conductor.call(band, { id: read.id, cue: read.cue, ...by }, answer(read.id));
      else conductor.takeBack(band, { id: read.id, cue: read.cue, ...by }, answer(read.id));
    }
  };
  const connection: Connection = openConnection(
    socket,
    { band, role },
    { message, closed: () => crowd.leave(member), heard: () => crowd.heard(member) },
    nowMs,
    log,
  );
  const member = { connection, visited: () => {} };
  crowd.join(member);
};
