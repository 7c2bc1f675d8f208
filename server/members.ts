import { createHash } from 'node:crypto';
import type { Role } from '../common/protocol/roles.ts';
import type { Store } from './store.ts';
import type { Visitor } from './visitor.ts';

/**
 * Who is whom. A member's id is seen by everybody, so a connection that names one must show that it is theirs: by
 * the proof in its address, a secret that the tablet keeps. The first to name an id has it, for as long as a
 * connection of theirs is open, and over every restart while that member holds the baton or the taps. Programs
 * that send no proof all have the same one.
 */
export interface Members {
  /** A connection came in; `left` is to be called once when it has gone. */
  readonly enter: (visitor: MemberVisitor) => {
    /** The member it speaks for; null where it named none, or somebody else's. */
    readonly member: string | null;
    readonly left: () => void;
  };
  /** The role of a member who is connected; null for somebody who is not. */
  readonly roleHere: (band: string, member: string) => Role | null;
  /** These, and no others of the band, are remembered after they have left. */
  readonly remember: (band: string, holders: readonly string[]) => void;
}

type MemberVisitor = Pick<Visitor, 'band' | 'role' | 'member' | 'proof'>;

interface Here {
  readonly proof: string;
  /** One for each connection. */
  readonly roles: Role[];
}

/** The proof itself is not kept. */
const hashOf = (proof: string): string => createHash('sha256').update(proof).digest('base64url');

const nameOf = (band: string, member: string): string => `${band}/${member}`;

export const openMembers = (store: Store): Members => {
  const heldBy = store.database.prepare('select proof from holders where band = ? and member = ?').raw(true);
  const forget = store.database.prepare('delete from holders where band = ?');
  const keep = store.database.prepare('insert into holders (band, member, proof) values (?, ?, ?)');
  const here = new Map<string, Here>();

  const proofOf = (band: string, member: string): string | null => {
    const alive = here.get(nameOf(band, member));
    if (alive) return alive.proof;
    const [row] = heldBy.all(band, member) as [string][];
    return row?.[0] ?? null;
  };
  return {
    enter: ({ band, role, member, proof: shown }) => {
      if (member === null) return { member, left: () => {} };
      const proof = hashOf(shown);
      if (proof !== (proofOf(band, member) ?? proof)) return { member: null, left: () => {} };
      const name = nameOf(band, member);
      const one = here.get(name) ?? { proof, roles: [] };
      here.set(name, one);
      one.roles.push(role);
      return {
        member,
        left: () => {
          one.roles.splice(one.roles.indexOf(role), 1);
          if (one.roles.length === 0) here.delete(name);
        },
      };
    },
    roleHere: (band, member) => {
      const roles = here.get(nameOf(band, member))?.roles ?? [];
      return roles.find((role) => role !== 'reader') ?? roles[0] ?? null;
    },
    remember: (band, holders) => {
      const rows = [...new Set(holders)].map((member) => [member, proofOf(band, member)] as const);
      store.transaction(() => {
        forget.run(band);
        for (const [member, proof] of rows) if (proof !== null) keep.run(band, member, proof);
      });
    },
  };
};
