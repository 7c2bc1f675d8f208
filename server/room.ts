import type * as Y from 'yjs';
import type { CloseName } from '../common/protocol/close-codes.ts';
import type { Role } from '../common/protocol/roles.ts';
import { encodeAcknowledgement } from '../common/protocol/sync-frames.ts';
import { stampState } from './awareness-state.ts';
import { type DocumentState, isEmptyStateVector, isEmptyUpdate, isStateVector } from './document-state.ts';
import { type PresenceEntry, presence } from './presence.ts';
import {
  awarenessFrame,
  readSyncFrame,
  type SyncFrame,
  step1Frame,
  step2Frame,
  updateFrame,
} from './sync-frame.ts';

/** One connection to a room, as the room sees it. */
export interface Peer {
  readonly role: Role;
  readonly mayWrite: boolean;
  /** It may point at bars. */
  readonly mayPoint: () => boolean;
  /** It asked for acknowledgements. */
  readonly wantsAcks: boolean;
  /** @param whole the frame is the document itself, which may be larger than what else may wait to be sent */
  readonly send: (frame: Uint8Array, whole?: boolean) => void;
  readonly close: (name: CloseName) => void;
  /** Ask it for a sign of life; if none comes soon it is cut. */
  readonly probe: () => void;
}

/** What a room needs from around it. */
export interface RoomSurroundings {
  readonly state: DocumentState;
  readonly afterCommit: (done: () => void) => void;
  readonly afterSync: (done: () => void) => void;
  /** Whether the band may have one document more. */
  readonly mayBegin: () => boolean;
  /** Locked for the gig: nobody may write, whatever their role. */
  readonly isLocked: () => boolean;
  /** The document has changed, and the change is on the disk. */
  readonly changed: () => void;
  /** Run once at the end of this turn. */
  readonly soon: (run: () => void) => void;
  /** Below all awareness clocks of this room; rises from one life of the room to the next. */
  readonly firstClock: number;
}

/** Everybody at one document. */
export interface Room {
  readonly join: (peer: Peer) => void;
  readonly leave: (peer: Peer) => void;
  readonly receive: (peer: Peer, frame: Uint8Array) => void;
  /** Asks everybody who may write for what they have and the document lacks. */
  readonly askWriters: () => void;
  /** A change by the relay itself. */
  readonly write: (clientId: number, change: (doc: Y.Doc) => void) => void;
  readonly read: <Value>(look: (doc: Y.Doc) => Value) => Value;
  readonly peers: () => ReadonlySet<Peer>;
  /** Sends on what has only been renewed: every few seconds. */
  readonly renew: () => void;
  /** Makes the stored form compact and forgets the built document: when nobody has written for a while. */
  readonly rest: () => void;
}

/** Rows of updates after which a snapshot takes their place. */
const ROWS_PER_SNAPSHOT = 500;

interface Writes {
  received: number;
  /** An update of this peer could not be placed: nothing is acknowledged until its step 2 is here. */
  missing: boolean;
}

export const createRoom = (around: RoomSurroundings): Room => {
  const { state } = around;
  const peers = new Set<Peer>();
  const writes = new Map<Peer, Writes>();
  const here = presence<Peer>(around.firstClock);
  let acks: Map<Peer, number> | null = null;
  let awarenessDue = false;
  let joinFrames: { readonly of: Uint8Array; readonly step2: Uint8Array; readonly step1: Uint8Array } | null =
    null;

  const sendPresence = (entries: readonly PresenceEntry[]) => {
    if (entries.length === 0) return;
    const owned = new Set(entries.map((entry) => entry.client));
    const frame = awarenessFrame(entries);
    for (const peer of peers) {
      const own = here.clientOf(peer);
      if (own === undefined || !owned.has(own)) peer.send(frame);
      else if (entries.length > 1) peer.send(awarenessFrame(entries.filter((entry) => entry.client !== own)));
    }
  };
  const presenceSoon = () => {
    if (awarenessDue) return;
    awarenessDue = true;
    around.soon(() => {
      awarenessDue = false;
      sendPresence(here.due(false));
    });
  };
  const sendEverybody = (peer: Peer) => {
    const own = here.clientOf(peer);
    const entries = here.everybody().filter((entry) => entry.client !== own);
    if (entries.length > 0) peer.send(awarenessFrame(entries));
  };
  const acknowledge = (peer: Peer, count: number) => {
    if (!peer.wantsAcks) return;
    if (acks !== null) {
      acks.set(peer, count);
      return;
    }
    const batch = new Map([[peer, count]]);
    acks = batch;
    // Writes after this commit belong to the next batch, even if this one is not synced by then.
    around.afterCommit(() => {
      acks = null;
    });
    around.afterSync(() => {
      for (const [one, durable] of batch) if (peers.has(one)) one.send(encodeAcknowledgement(durable));
    });
  };
  const broadcast = (news: Uint8Array | null) => {
    if (news === null) return;
    const frame = updateFrame(news);
    around.afterCommit(() => {
      for (const peer of peers) peer.send(frame);
      around.changed();
    });
    if (state.storedRows() >= ROWS_PER_SNAPSHOT) around.afterCommit(() => state.compact());
  };
  const askForMissing = (peer: Peer) => peer.send(step1Frame(state.whole().stateVector));

  const greet = (peer: Peer, stateVector: Uint8Array) => {
    const { update, stateVector: own } = state.whole();
    if (joinFrames?.of !== update) {
      joinFrames = { of: update, step2: step2Frame(update), step1: step1Frame(own) };
    }
    peer.send(
      isEmptyStateVector(stateVector) ? joinFrames.step2 : step2Frame(state.since(stateVector)),
      true,
    );
    // Only who may write has anything to tell us. While the book is locked nobody is asked, so nobody writes.
    if (peer.mayWrite && !around.isLocked()) peer.send(joinFrames.step1);
  };
  const receiveStep1 = (peer: Peer, stateVector: Uint8Array) => {
    if (!isStateVector(stateVector)) {
      peer.close('badMessage');
      return;
    }
    // Loaded now, where a document that cannot be read ends this connection only.
    if (!state.hasDoc()) state.whole();
    // What is being committed this very turn must not be shown before it is on the disk.
    around.afterCommit(() => {
      if (peers.has(peer)) greet(peer, stateVector);
    });
  };
  const receiveWrite = (peer: Peer, kind: 'step2' | 'update', update: Uint8Array) => {
    const own = writes.get(peer);
    if (own === undefined) return;
    if (!peer.mayWrite) {
      if (kind === 'step2' && isEmptyUpdate(update)) return;
      peer.close('notAllowed');
      return;
    }
    own.received++;
    if (!isEmptyUpdate(update)) {
      if (around.isLocked()) {
        peer.close('locked');
        return;
      }
      if (state.isEmpty() && !around.mayBegin()) {
        peer.close('tooManyDocuments');
        return;
      }
      const applied = state.apply(update);
      if (applied.outcome === 'unreadable' || applied.outcome === 'tooLarge') {
        peer.close(applied.outcome === 'tooLarge' ? 'tooLarge' : 'badMessage');
        return;
      }
      broadcast(applied.news);
      if (applied.outcome === 'missing' && kind === 'update') {
        if (!own.missing) askForMissing(peer);
        own.missing = true;
      }
    }
    // A step 2 holds all that this tablet has and we had not, so nothing of it is missing any more.
    if (kind === 'step2') own.missing = false;
    if (!own.missing) acknowledge(peer, own.received);
  };
  const receiveAwareness = (peer: Peer, entries: Extract<SyncFrame, { kind: 'awareness' }>['entries']) => {
    for (const { client, state: json } of entries) {
      const stamped = stampState(json, peer.role, peer.mayPoint());
      if (!stamped.ok) {
        peer.close(stamped.why === 'tooLarge' ? 'tooLarge' : 'badMessage');
        return;
      }
      const spoken = here.speak(peer, client, stamped.state);
      if (spoken.outcome === 'changed') presenceSoon();
      if (spoken.outcome === 'contested') spoken.owner.probe();
    }
  };
  return {
    join: (peer) => {
      peers.add(peer);
      writes.set(peer, { received: 0, missing: false });
      sendEverybody(peer);
    },
    leave: (peer) => {
      peers.delete(peer);
      writes.delete(peer);
      here.leave(peer);
      presenceSoon();
    },
    receive: (peer, bytes) => {
      const frame = readSyncFrame(bytes);
      if (frame === null) peer.close('badMessage');
      else if (frame.kind === 'step1') receiveStep1(peer, frame.stateVector);
      else if (frame.kind === 'awareness') receiveAwareness(peer, frame.entries);
      else if (frame.kind === 'queryAwareness') sendEverybody(peer);
      else receiveWrite(peer, frame.kind, frame.update);
    },
    askWriters: () => {
      for (const peer of peers) if (peer.mayWrite) askForMissing(peer);
    },
    write: (clientId, change) => broadcast(state.write(clientId, change)),
    read: (look) => state.read(look),
    peers: () => peers,
    renew: () => sendPresence(here.due(true)),
    rest: () => {
      state.compact();
      state.release();
    },
  };
};
