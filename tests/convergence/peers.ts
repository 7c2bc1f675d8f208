import * as Y from 'yjs';

/**
 * Peers around a relay that holds every update it was sent. What is sent arrives late, in any order and sometimes
 * twice; a peer that is away sends and gets nothing until it comes back and syncs by state vectors.
 * @param random numbers from 0 up to 1, seeded
 */
export class Network {
  readonly relay = new Y.Doc();
  readonly peers: Peer[] = [];
  private readonly random: () => number;

  constructor(names: readonly string[], random: () => number, start: (doc: Y.Doc) => void) {
    this.random = random;
    start(this.relay);
    names.forEach((name, index) => {
      const doc = new Y.Doc();
      doc.clientID = index + 1;
      Y.applyUpdate(doc, Y.encodeStateAsUpdate(this.relay));
      const peer: Peer = { name, doc, isOnline: true, toRelay: [], toPeer: [] };
      doc.on('update', (update: Uint8Array, origin: unknown) => {
        if (origin !== 'network' && peer.isOnline) peer.toRelay.push(update);
      });
      this.peers.push(peer);
    });
    this.relay.on('update', (update: Uint8Array) => {
      for (const peer of this.peers) if (peer.isOnline) peer.toPeer.push(update);
    });
  }

  /** Delivers some of what is on its way, from anywhere in the queues. */
  deliverSome(): void {
    for (const peer of this.peers) {
      if (!peer.isOnline) continue;
      this.deliver(peer.toRelay, this.relay);
      this.deliver(peer.toPeer, peer.doc);
    }
  }

  disconnect(peer: Peer): void {
    peer.isOnline = false;
    peer.toRelay.length = 0;
    peer.toPeer.length = 0;
  }

  reconnect(peer: Peer): void {
    if (peer.isOnline) return;
    peer.isOnline = true;
    this.sync(peer);
  }

  /** Everybody comes back and hears everything. */
  settle(): void {
    for (const peer of this.peers) {
      peer.isOnline = true;
      this.sync(peer);
    }
    for (const peer of this.peers) this.sync(peer);
    for (const peer of this.peers) {
      for (const update of peer.toPeer.splice(0)) Y.applyUpdate(peer.doc, update, 'network');
    }
  }

  private sync({ doc }: Peer): void {
    Y.applyUpdate(this.relay, Y.encodeStateAsUpdate(doc, Y.encodeStateVector(this.relay)), 'network');
    Y.applyUpdate(doc, Y.encodeStateAsUpdate(this.relay, Y.encodeStateVector(doc)), 'network');
  }

  private deliver(queue: Uint8Array[], doc: Y.Doc): void {
    let count = Math.floor(this.random() * (queue.length + 1));
    for (; count > 0; count--) {
      const [update] = queue.splice(Math.floor(this.random() * queue.length), 1);
      if (!update) return;
      Y.applyUpdate(doc, update, 'network');
      if (this.random() < 0.15) queue.push(update);
    }
  }
}

export interface Peer {
  readonly name: string;
  readonly doc: Y.Doc;
  isOnline: boolean;
  readonly toRelay: Uint8Array[];
  readonly toPeer: Uint8Array[];
}
