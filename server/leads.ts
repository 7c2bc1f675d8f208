import { readLeading, writeLeading } from '../common/document/leading-document.ts';
import { mayChange, type Role } from '../common/protocol/roles.ts';
import { type LeadChange, type Leading, leadingAfter } from '../common/stage/leading.ts';
import type { Log } from './log.ts';
import type { Members } from './members.ts';
import type { Room } from './room.ts';
import type { Rooms } from './rooms.ts';

export type LeadReply =
  | { readonly ok: true }
  | { readonly ok: false; readonly why: string; readonly words: string };

/** Who leads each band and whether its book is locked: read from its stage document, which is written here too. */
export interface Leads {
  readonly of: (band: string) => Leading;
  /** Answers when the change is on the disk. */
  readonly change: (
    band: string,
    lead: { readonly id: string; readonly change: LeadChange },
    by: Leader,
    reply: (reply: LeadReply) => void,
  ) => void;
}

interface Leader {
  readonly role: Role;
  readonly member: string | null;
}

const no = (why: string, words: string): LeadReply => ({ ok: false, why, words });

const NOT_YOURS = no('notAllowed', 'Only a leader can do that. Ask whoever has the leader’s link.');
const NOT_HERE = no('notHere', 'That player is not at the board now. Pass it on when they are here.');
const READS = no(
  'readsOnly',
  'They came by a reader’s link, so they cannot lead. Give them a player’s link first.',
);
const BROKEN = no('broken', 'The relay could not do that. Try again.');

/** Changes of a band that are known again when a tablet sends them twice. */
const KNOWN_CHANGES = 64;

export const createLeads = (
  rooms: Rooms,
  members: Members,
  afterCommit: (done: () => void) => void,
  clientId: number,
  log: Log,
): Leads => {
  const known = new WeakMap<Room, Leading>();
  const done = new WeakMap<Room, Set<string>>();

  const ofRoom = (room: Room): Leading => {
    const leading = known.get(room) ?? room.read(readLeading);
    known.set(room, leading);
    return leading;
  };
  const of = (band: string): Leading => {
    try {
      return ofRoom(rooms.open(band, 'stage'));
    } catch (error) {
      // A stage that cannot be read must not keep anybody from their charts.
      log.error('a stage cannot be read', { band, error });
      return {};
    }
  };
  const whyNot = (band: string, leading: Leading, { baton, taps }: LeadChange): LeadReply | null => {
    const given = [baton, taps].filter((member) => typeof member === 'string');
    for (const member of given) {
      if (member === leading.baton || member === leading.taps) continue;
      const role = members.roleHere(band, member);
      if (role === null) return NOT_HERE;
      if (role === 'reader') return READS;
    }
    return null;
  };
  const idsOf = (room: Room): Set<string> => {
    const ids = done.get(room) ?? new Set();
    done.set(room, ids);
    return ids;
  };
  const note = (ids: Set<string>, id: string) => {
    ids.add(id);
    const [oldest] = ids;
    if (ids.size > KNOWN_CHANGES && oldest !== undefined) ids.delete(oldest);
  };
  const carryOut = (band: string, room: Room, leading: Leading, next: Leading) => {
    members.remember(
      band,
      [next.baton, next.taps].filter((member) => member !== undefined),
    );
    room.write(clientId, (doc) => writeLeading(doc, next));
    known.set(room, next);
    if (leading.locked && !next.locked) afterCommit(() => rooms.askWriters(band));
  };
  const acted = (
    band: string,
    room: Room,
    id: string,
    change: LeadChange,
    { role, member }: Leader,
  ): LeadReply => {
    const ids = idsOf(room);
    if (ids.has(id)) return { ok: true };
    const leading = ofRoom(room);
    if (!mayChange(role, member, leading, change)) return NOT_YOURS;
    const refusal = whyNot(band, leading, change);
    if (refusal !== null) return refusal;
    carryOut(band, room, leading, leadingAfter(leading, change));
    note(ids, id);
    return { ok: true };
  };
  return {
    of,
    change: (band, { id, change }, by, reply) => {
      try {
        const room = rooms.open(band, 'stage');
        const answer = acted(band, room, id, change, by);
        afterCommit(() => reply(answer));
      } catch (error) {
        log.error('who leads could not be changed', { band, error });
        reply(BROKEN);
      }
    },
  };
};
