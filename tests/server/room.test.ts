import { describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import { documentState } from '../../server/document-state.ts';
import { createRoom, type Peer } from '../../server/room.ts';
import {
  awarenessFrame,
  readSyncFrame,
  step1Frame,
  step2Frame,
  updateFrame,
} from '../../server/sync-frame.ts';

/** A room whose disk and whose end of turn come when the test says so. */
const roomByHand = () => {
  const stored: Uint8Array[] = [];
  let uncommitted: Uint8Array[] = [];
  const commits: (() => void)[] = [];
  const syncs: (() => void)[] = [];
  const turns: (() => void)[] = [];
  let locked = false;
  const room = createRoom({
    state: documentState(
      {
        load: () => stored,
        append: (update) => void uncommitted.push(update),
        compact: (snapshot) => void stored.splice(0, stored.length, snapshot),
      },
      1e6,
    ),
    afterCommit: (done) => {
      if (uncommitted.length === 0 && commits.length === 0) done();
      else commits.push(done);
    },
    afterSync: (done) => void syncs.push(done),
    mayBegin: () => true,
    isLocked: () => locked,
    changed: () => {},
    soon: (run) => void turns.push(run),
    firstClock: 1_000,
  });
  const peer = (mayWrite = true) => {
    const heard: Uint8Array[] = [];
    const closes: string[] = [];
    const made: Peer = {
      role: mayWrite ? 'player' : 'reader',
      mayWrite,
      mayPoint: () => false,
      wantsAcks: true,
      send: (frame) => void heard.push(frame),
      close: (name) => void closes.push(name),
      probe: () => void closes.push('probe'),
    };
    room.join(made);
    return {
      peer: made,
      heard,
      closes,
      kinds: () => heard.map((frame) => readSyncFrame(frame)?.kind ?? 'ack'),
    };
  };
  return {
    room,
    peer,
    stored,
    lock: (now: boolean) => {
      locked = now;
    },
    commit: () => {
      stored.push(...uncommitted);
      uncommitted = [];
      for (const done of commits.splice(0)) done();
    },
    sync: () => {
      for (const done of syncs.splice(0)) done();
    },
    turn: () => {
      for (const run of turns.splice(0)) run();
    },
  };
};

const letter = (text: string): Uint8Array => {
  const doc = new Y.Doc();
  doc.getText('t').insert(0, text);
  return Y.encodeStateAsUpdate(doc);
};

describe('a room', () => {
  it('sends on, echoes and acknowledges nothing before it is on the disk', () => {
    const { room, peer, commit, sync, stored } = roomByHand();
    const [writer, other] = [peer(), peer()];
    room.receive(writer.peer, updateFrame(letter('a')));
    expect([writer.kinds(), other.kinds()]).toEqual([[], []]);
    commit();
    expect(stored).toHaveLength(1);
    expect([writer.kinds(), other.kinds()]).toEqual([['update'], ['update']]);
    sync();
    expect([writer.kinds(), other.kinds()]).toEqual([['update', 'ack'], ['update']]);
  });

  it('shows somebody who joins in that very turn nothing that is not on the disk', () => {
    const { room, peer, commit } = roomByHand();
    const [writer, joiner] = [peer(), peer(false)];
    room.receive(writer.peer, updateFrame(letter('a')));
    room.receive(joiner.peer, step1Frame(Uint8Array.of(0)));
    expect(joiner.kinds()).toEqual([]);
    commit();
    expect(joiner.kinds()).toEqual(['update', 'step2']);
  });

  it('encodes a frame once for everybody', () => {
    const { room, peer, commit } = roomByHand();
    const peers = Array.from({ length: 20 }, () => peer());
    const [first] = peers;
    if (!first) throw new Error('nobody');
    room.receive(first.peer, updateFrame(letter('a')));
    commit();
    expect(new Set(peers.map(({ heard }) => heard[0])).size).toBe(1);
    const joiners = [peer(false), peer(false)];
    for (const joiner of joiners) room.receive(joiner.peer, step1Frame(Uint8Array.of(0)));
    expect(new Set(joiners.map(({ heard }) => heard[0])).size).toBe(1);
  });

  it('acknowledges in a later batch what was written after a commit, though the sync of the first comes late', () => {
    const { room, peer, commit, sync } = roomByHand();
    const writer = peer();
    room.receive(writer.peer, updateFrame(letter('a')));
    commit();
    room.receive(writer.peer, updateFrame(letter('b')));
    sync();
    const acks = writer.heard.filter((frame) => frame[0] === 4).map((frame) => frame[1]);
    expect(acks[0]).toBe(1);
  });

  it('puts one snapshot in the place of five hundred updates', () => {
    const { room, peer, commit, stored } = roomByHand();
    const writer = peer();
    for (let nth = 0; nth < 499; nth++) {
      room.receive(writer.peer, updateFrame(letter('a')));
      commit();
    }
    expect(stored).toHaveLength(499);
    room.receive(writer.peer, updateFrame(letter('a')));
    commit();
    expect(stored).toHaveLength(1);
  });

  it('takes nothing while the book is locked, asks nobody for it, and asks everybody when it is unlocked', () => {
    const { room, peer, commit, lock, stored } = roomByHand();
    lock(true);
    const [writer, tablet, reader] = [peer(), peer(), peer(false)];
    for (const { peer: one } of [writer, tablet, reader]) room.receive(one, step1Frame(Uint8Array.of(0)));
    expect([writer, tablet, reader].map(({ kinds }) => kinds())).toEqual([['step2'], ['step2'], ['step2']]);
    for (const empty of [step2Frame, updateFrame]) room.receive(tablet.peer, empty(Uint8Array.of(0, 0)));
    room.receive(writer.peer, updateFrame(letter('a')));
    expect([writer.closes, tablet.closes]).toEqual([['locked'], []]);
    room.leave(writer.peer);
    lock(false);
    room.askWriters();
    expect([tablet.kinds(), reader.kinds()]).toEqual([['step2', 'step1'], ['step2']]);
    room.receive(tablet.peer, step2Frame(letter('b')));
    commit();
    expect(stored).toHaveLength(1);
    expect(reader.kinds()).toEqual(['step2', 'update']);
  });

  it('tells nobody about themselves, and others at the end of the turn, once', () => {
    const { room, peer, turn } = roomByHand();
    const [ines, bea] = [peer(), peer()];
    const speak = (client: number, state: string) => awarenessFrame([{ client, clock: 1, state }]);
    room.receive(ines.peer, speak(1, '{"name":"Ines"}'));
    room.receive(ines.peer, speak(1, '{"name":"Ines S"}'));
    room.receive(bea.peer, speak(2, '{"name":"Bea"}'));
    turn();
    expect(ines.kinds()).toEqual(['awareness']);
    expect(readSyncFrame(ines.heard[0] ?? new Uint8Array())).toMatchObject({ entries: [{ client: 2 }] });
    expect(readSyncFrame(bea.heard[0] ?? new Uint8Array())).toMatchObject({
      entries: [{ client: 1, state: '{"name":"Ines S","role":"player"}' }],
    });
  });

  it('asks for a sign of life from who has an id that somebody else claims', () => {
    const { room, peer } = roomByHand();
    const [old, fresh] = [peer(), peer()];
    const frame = awarenessFrame([{ client: 1, clock: 1, state: '{}' }]);
    room.receive(old.peer, frame);
    room.receive(fresh.peer, frame);
    expect([old.closes, fresh.closes]).toEqual([['probe'], []]);
  });

  it('is as small after ten thousand came and went as before', () => {
    const { room, peer, turn } = roomByHand();
    for (let nth = 0; nth < 10_000; nth++) {
      const one = peer(false);
      room.receive(one.peer, awarenessFrame([{ client: nth, clock: 1, state: '{}' }]));
      room.leave(one.peer);
      turn();
    }
    expect(room.peers().size).toBe(0);
    expect(peer().heard).toEqual([]);
  });
});
