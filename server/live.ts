import type { WebSocket } from 'ws';
import {
  type Call,
  type Lead,
  type Ping,
  type RelayMessage,
  readTabletMessage,
  type TakeBack,
} from '../common/protocol/messages.ts';
import { mayCall } from '../common/protocol/roles.ts';
import type { Conductor, Reply } from './conductor.ts';
import { type Connection, openConnection } from './connection.ts';
import type { Crowd } from './crowd.ts';
import type { Leads } from './leads.ts';
import type { Log } from './log.ts';
import type { SharedTime } from './shared-time.ts';
import type { Visitor } from './visitor.ts';

interface Refusal {
  readonly why: string;
  readonly words: string;
}

const NOT_LEADING: Refusal = {
  why: 'notAllowed',
  words: 'Only whoever leads can call cues: a leader, or the player who has the baton.',
};
const UNREADABLE: Refusal = {
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

export interface LiveSurroundings {
  readonly conductor: Conductor;
  readonly leads: Leads;
  readonly crowd: Crowd;
  readonly time: SharedTime;
  readonly nowMs: () => number;
  readonly log: Log;
}

/** Answers pings and takes calls on a websocket that was let in. */
export const joinLive = (socket: WebSocket, visitor: Visitor, around: LiveSurroundings): void => {
  const { conductor, leads, crowd, time, nowMs, log } = around;
  const { band, role, member: by } = visitor;
  const say = (message: RelayMessage) => connection.send(JSON.stringify(message));
  const refuse = (id: string, { why, words }: Refusal) => say({ t: 'refused', id, why, words });
  const answer = (id: string) => (reply: Reply) => {
    if (!reply.ok) return refuse(id, reply);
    const { cue, calledAtMs } = reply.called;
    say({ t: 'called', id, cue, calledAtMs });
  };
  const call = (asked: Call | TakeBack) => {
    const { id, cue } = asked;
    const kind = typeof cue === 'string' ? 'takeBack' : cue.kind;
    if (!mayCall(role, by, leads.of(band), { kind })) return refuse(id, NOT_LEADING);
    const called = by === null ? { id } : { id, by };
    if (asked.t === 'call') conductor.call(band, { ...called, cue: asked.cue }, answer(id));
    else conductor.takeBack(band, { ...called, cue: asked.cue }, answer(id));
  };
  const lead = ({ id, t: _, ...change }: Lead) =>
    leads.change(band, { id, change }, { role, member: by }, (reply) =>
      reply.ok ? say({ t: 'done', id }) : refuse(id, reply),
    );
  const message = (data: Buffer, isBinary: boolean) => {
    const t1 = time.now();
    if (isBinary) {
      connection.close('badMessage');
      return;
    }
    const json = parsed(data.toString());
    const read = readTabletMessage(json);
    if (read === null) refuse(idIn(json), UNREADABLE);
    else if (read.t === 'ping') connection.send(pongText(read, t1, time));
    else if (read.t === 'lead') lead(read);
    else call(read);
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
