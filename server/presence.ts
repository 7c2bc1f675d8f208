/**
 * Who is in a room, as y-protocols' awareness has it: each client has an id of its own and a state. Here a
 * client id belongs to the connection that spoke for it first; what a connection says about others is ignored,
 * since tablets repeat what they hear. A connection speaks for one id.
 *
 * Clocks that go out are the room's own and rise with everything sent, so that somebody who comes back with an
 * old clock is seen at once; only to its owner an id is never sent.
 */
export interface Presence<Peer> {
  /** Takes what a connection says about an id. `state` is JSON, '' where it leaves. */
  readonly speak: (peer: Peer, client: number, state: string) => Spoken<Peer>;
  /** The connection has gone: its id is free again, or goes to the connection that waited for it. */
  readonly leave: (peer: Peer) => void;
  /** What is to be sent now to those who know the rest: changes, and with `all` also what was only renewed. */
  readonly due: (all: boolean) => readonly PresenceEntry[];
  /** Everybody who is here. */
  readonly everybody: () => readonly PresenceEntry[];
  readonly clientOf: (peer: Peer) => number | undefined;
}

export interface PresenceEntry {
  readonly client: number;
  readonly clock: number;
  /** JSON; 'null' for somebody who has left. */
  readonly state: string;
}

export type Spoken<Peer> =
  | { readonly outcome: 'changed' | 'renewed' | 'ignored' }
  /** Another connection has that id; if it turns out to be dead, the id is this one's. */
  | { readonly outcome: 'contested'; readonly owner: Peer };

/** @param firstClock below all clocks sent; rises from one life of a room to the next (shared ms will do) */
export const presence = <Peer>(firstClock: number): Presence<Peer> => {
  const owners = new Map<number, Peer>();
  const clients = new Map<Peer, number>();
  const states = new Map<number, string>();
  const changed = new Set<number>();
  const renewed = new Set<number>();
  const waiting = new Map<number, { readonly peer: Peer; readonly state: string }>();
  let clock = Math.floor(firstClock);

  const entryOf = (client: number): PresenceEntry => ({
    client,
    clock: ++clock,
    state: states.get(client) ?? 'null',
  });
  const own = (peer: Peer, client: number, state: string) => {
    owners.set(client, peer);
    clients.set(peer, client);
    states.set(client, state);
    changed.add(client);
  };
  return {
    speak: (peer, client, state) => {
      const owner = owners.get(client);
      if (owner === undefined) {
        if (state === '' || clients.has(peer)) return { outcome: 'ignored' };
        own(peer, client, state);
        return { outcome: 'changed' };
      }
      if (owner !== peer) {
        if (state === '' || clients.has(peer)) return { outcome: 'ignored' };
        waiting.set(client, { peer, state });
        return { outcome: 'contested', owner };
      }
      const before = states.get(client) ?? '';
      if (before === state) {
        if (state !== '') renewed.add(client);
        return { outcome: state === '' ? 'ignored' : 'renewed' };
      }
      if (state === '') states.delete(client);
      else states.set(client, state);
      changed.add(client);
      return { outcome: 'changed' };
    },
    leave: (peer) => {
      for (const [client, claim] of waiting) if (claim.peer === peer) waiting.delete(client);
      const client = clients.get(peer);
      if (client === undefined) return;
      clients.delete(peer);
      owners.delete(client);
      if (states.delete(client)) changed.add(client);
      const claim = waiting.get(client);
      waiting.delete(client);
      if (claim !== undefined && !clients.has(claim.peer)) own(claim.peer, client, claim.state);
    },
    due: (all) => {
      const entries = [...changed].map(entryOf);
      if (all) {
        for (const client of renewed) {
          if (!changed.has(client) && states.has(client)) entries.push(entryOf(client));
        }
        renewed.clear();
      }
      changed.clear();
      return entries;
    },
    everybody: () => [...states.keys()].map(entryOf),
    clientOf: (peer) => clients.get(peer),
  };
};
