import type { Role } from '../common/protocol/roles.ts';
import type { Connection } from './connection.ts';
import { pingWheel } from './ping-wheel.ts';

/** Every connection of the relay: pinged in turn, cut when dead, closed together. */
export interface Crowd {
  readonly join: (member: CrowdMember) => void;
  readonly leave: (member: CrowdMember) => void;
  readonly heard: (member: CrowdMember) => void;
  /** Once a second. */
  readonly turn: () => void;
  /** Ends the connections that came with a key of this role. */
  readonly keyRenewed: (band: string, role: Role) => void;
  readonly size: () => number;
}

export interface CrowdMember {
  readonly connection: Connection;
  /** Called each time its turn comes. */
  readonly visited: () => void;
}

/** With a turn a second: a visit each 10 s, dead ones cut after 20 to 30 s. */
const SLOTS = 10;

export const createCrowd = (): Crowd => {
  const wheel = pingWheel<CrowdMember>(SLOTS);
  const members = new Set<CrowdMember>();
  return {
    join: (member) => {
      members.add(member);
      wheel.add(member);
    },
    leave: (member) => {
      members.delete(member);
      wheel.remove(member);
    },
    heard: wheel.heard,
    turn: () => {
      const { ping, cut } = wheel.turn();
      for (const { connection } of cut) connection.cut('it gives no sign of life');
      for (const { connection, visited } of ping) {
        connection.ping();
        visited();
      }
    },
    keyRenewed: (band, role) => {
      for (const { connection } of members) {
        if (connection.band === band && connection.role === role) connection.close('keyRenewed');
      }
    },
    size: () => members.size,
  };
};
