import { WebSocket } from 'ws';
import * as Y from 'yjs';
import { decodeAcknowledgement } from '../../../common/protocol/sync-frames.ts';
import { readSyncFrame, step1Frame, step2Frame, updateFrame } from '../../../server/sync-frame.ts';
import { afterThis } from './test-relay.ts';

/** A websocket by hand, which keeps everything it hears. */
export interface RawSocket {
  readonly socket: WebSocket;
  readonly heard: Uint8Array[];
  readonly closed: Promise<{ readonly code: number; readonly reason: string }>;
  /** The first thing heard, from now or before, for which `look` gives something. */
  readonly hears: <Value>(look: (message: Uint8Array) => Value | null | undefined | false) => Promise<Value>;
  readonly send: (data: Uint8Array | string) => void;
}

const PATIENCE_MS = 5_000;

export const rawSocket = async (
  url: string,
  options: { readonly origin?: string } = {},
): Promise<RawSocket> => {
  const socket = new WebSocket(url, options);
  socket.binaryType = 'nodebuffer';
  const heard: Uint8Array[] = [];
  const listeners = new Set<() => void>();
  socket.on('message', (data) => {
    heard.push(data as Buffer);
    for (const listen of listeners) listen();
  });
  const closed = new Promise<{ code: number; reason: string }>((done) => {
    socket.on('close', (code, reason) => done({ code, reason: reason.toString() }));
  });
  socket.on('error', () => {
    // The close that follows is what tests look at.
  });
  await new Promise<void>((done) => {
    socket.once('open', () => done());
    socket.once('close', () => done());
  });
  afterThis(async () => socket.terminate());
  return {
    socket,
    heard,
    closed,
    send: (data) => socket.send(data),
    hears: (look) =>
      new Promise((done, failed) => {
        let at = 0;
        const check = () => {
          for (; at < heard.length; at++) {
            const value = look(heard[at] ?? new Uint8Array());
            if (value === null || value === undefined || value === false) continue;
            listeners.delete(check);
            clearTimeout(timer);
            done(value);
            return;
          }
        };
        const timer = setTimeout(() => {
          listeners.delete(check);
          failed(new Error(`not heard among ${heard.length} messages`));
        }, PATIENCE_MS);
        listeners.add(check);
        check();
      }),
  };
};

export interface SyncSocket extends RawSocket {
  /** Follows what is heard. */
  readonly doc: Y.Doc;
  readonly step1: () => void;
  readonly step2: () => void;
  readonly update: (update: Uint8Array) => void;
  /** Changes the document and sends the update. */
  readonly write: (change: (doc: Y.Doc) => void) => void;
  readonly hearsStep2: () => Promise<Uint8Array>;
  readonly acknowledged: (count: number) => Promise<true>;
}

/** A raw socket on a document, which speaks the protocol only as far as the test makes it. */
export const syncSocket = async (url: string): Promise<SyncSocket> => {
  const raw = await rawSocket(url);
  const doc = new Y.Doc();
  const apply = (message: Uint8Array) => {
    const frame = readSyncFrame(message);
    if (frame?.kind === 'step2' || frame?.kind === 'update') Y.applyUpdate(doc, frame.update, 'heard');
  };
  for (const message of raw.heard) apply(message);
  raw.socket.on('message', (data) => apply(data as Buffer));
  return {
    ...raw,
    doc,
    step1: () => raw.send(step1Frame(Y.encodeStateVector(doc))),
    step2: () => raw.send(step2Frame(Y.encodeStateAsUpdate(doc))),
    update: (update) => raw.send(updateFrame(update)),
    write: (change) => {
      const before = Y.encodeStateVector(doc);
      doc.transact(() => change(doc));
      raw.send(updateFrame(Y.encodeStateAsUpdate(doc, before)));
    },
    hearsStep2: () =>
      raw.hears((message) => {
        const frame = readSyncFrame(message);
        return frame?.kind === 'step2' && frame.update;
      }),
    acknowledged: (count) =>
      raw.hears((message) => {
        const durable = decodeAcknowledgement(message);
        return durable !== null && durable >= count && (true as const);
      }),
  };
};

/** What the awareness frames say about an id, in order; null where it left. */
export const statesOf = (heard: readonly Uint8Array[], client: number): (Record<string, unknown> | null)[] =>
  heard.flatMap((message) => {
    const frame = readSyncFrame(message);
    if (frame?.kind !== 'awareness') return [];
    return frame.entries
      .filter((entry) => entry.client === client)
      .map((entry) => JSON.parse(entry.state) as Record<string, unknown> | null);
  });
