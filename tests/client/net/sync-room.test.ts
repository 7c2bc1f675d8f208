import { once } from 'node:events';
import type { AddressInfo } from 'node:net';
import * as decoding from 'lib0/decoding';
import * as encoding from 'lib0/encoding';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { type WebSocket as ServerSocket, WebSocket, WebSocketServer } from 'ws';
import { writeSyncStep1, writeSyncStep2, writeUpdate } from 'y-protocols/sync';
import * as Y from 'yjs';
import { openSyncRoom } from '../../../client/net/sync-room.ts';
import type { Room } from '../../../client/state/board-parts.ts';
import { CLOSE_CODES } from '../../../common/protocol/close-codes.ts';
import { sentenceOf } from '../../../common/protocol/close-sentences.ts';
import {
  encodeAcknowledgement,
  isDocumentWrite,
  SYNC_FRAME,
  SYNC_STEP_1,
} from '../../../common/protocol/sync-frames.ts';

const frame = (write: (encoder: encoding.Encoder) => void): Uint8Array => {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, SYNC_FRAME);
  write(encoder);
  return encoding.toUint8Array(encoder);
};

/** A relay of a few lines, told by each test what to do. */
const smallRelay = async () => {
  const server = new WebSocketServer({ port: 0 });
  await once(server, 'listening');
  const doc = new Y.Doc();
  const relay = {
    doc,
    url: `ws://127.0.0.1:${(server.address() as AddressInfo).port}/sync`,
    /** Nobody is asked for what they have. */
    locked: false,
    connections: [] as { socket: ServerSocket; url: string; frames: Uint8Array[] }[],
    close: async () => {
      for (const client of server.clients) client.terminate();
      server.close();
      await once(server, 'close');
    },
  };
  server.on('connection', (socket, request) => {
    const frames: Uint8Array[] = [];
    relay.connections.push({ socket, url: request.url ?? '', frames });
    socket.on('message', (data: Buffer) => {
      const bytes = new Uint8Array(data);
      frames.push(bytes);
      if (bytes[0] === SYNC_FRAME && bytes[1] === SYNC_STEP_1) {
        const decoder = decoding.createDecoder(bytes.subarray(2));
        const vector = decoding.readVarUint8Array(decoder);
        socket.send(frame((encoder) => writeSyncStep2(encoder, doc, vector)));
        if (!relay.locked) socket.send(frame((encoder) => writeSyncStep1(encoder, doc)));
      }
    });
  });
  return relay;
};

describe('a document’s connection', () => {
  let relay: Awaited<ReturnType<typeof smallRelay>>;
  let room: Room;
  const given = globalThis.WebSocket;

  const open = (readOnly: boolean, doc = new Y.Doc()) => {
    room = openSyncRoom(relay.url, 'b1/chart.c1', { key: 'k1', member: 'm1' }, doc, readOnly, () => 0.5);
    room.connect();
    return doc;
  };
  const until = (holds: () => boolean) =>
    vi.waitFor(() => expect(holds()).toBe(true), { timeout: 3000, interval: 10 });
  const writes = () => relay.connections.at(-1)?.frames.filter(isDocumentWrite) ?? [];

  beforeEach(async () => {
    globalThis.WebSocket = WebSocket as unknown as typeof globalThis.WebSocket;
    relay = await smallRelay();
  });
  afterEach(async () => {
    room.close();
    await relay.close();
    globalThis.WebSocket = given;
  });

  it('asks for acknowledgements, brings its key and says who it is', async () => {
    open(false);
    await until(() => relay.connections.length === 1);
    expect(relay.connections[0]?.url).toBe('/sync/b1/chart.c1?key=k1&member=m1&acks=1');
  });

  it('is sending until the relay has acknowledged everything that was typed', async () => {
    const doc = open(false);
    await until(() => room.state.get().synced && writes().length === 1);
    expect(room.state.get().sending).toBe(true);
    relay.connections[0]?.socket.send(encodeAcknowledgement(1));
    await until(() => !room.state.get().sending);
    doc.getMap('head').set('title', 'Slow Ferry');
    expect(room.state.get().sending).toBe(true);
    await until(() => writes().length === 2);
    relay.connections[0]?.socket.send(encodeAcknowledgement(2));
    await until(() => !room.state.get().sending);
  });

  it('sends no change of a document it may only read, though the relay asks and the copy holds more', async () => {
    const doc = new Y.Doc();
    doc.getMap('head').set('title', 'from an old copy');
    relay.doc.getMap('head').set('key', 'F');
    open(true, doc);
    await until(() => room.state.get().synced);
    doc.getMap('head').set('by', 'nobody');
    relay.connections[0]?.socket.send(
      frame((encoder) => writeUpdate(encoder, Y.encodeStateAsUpdate(relay.doc))),
    );
    await until(() => doc.getMap('head').get('key') === 'F');
    expect(writes()).toEqual([]);
    expect(room.state.get().sending).toBe(false);
  });

  it('ends in the relay’s sentence, and does not come back, when it is turned away', async () => {
    open(false);
    await until(() => room.state.get().connected);
    relay.connections[0]?.socket.close(CLOSE_CODES.tooLarge, sentenceOf('tooLarge'));
    await until(() => room.state.get().closed !== null);
    expect(room.state.get()).toMatchObject({ connected: false, closed: sentenceOf('tooLarge') });
    await new Promise((done) => setTimeout(done, 400));
    expect(relay.connections).toHaveLength(1);
  });

  it('keeps what is typed while a relay does not ask for it, and sends all of it when it does', async () => {
    relay.locked = true;
    relay.doc.getMap('head').set('key', 'F');
    const doc = new Y.Doc();
    doc.getMap('head').set('title', 'typed while away');
    open(false, doc);
    await until(() => room.state.get().synced);
    expect(doc.getMap('head').get('key')).toBe('F');
    doc.getMap('head').set('by', 'Ines');
    await new Promise((done) => setTimeout(done, 100));
    expect(writes()).toEqual([]);
    expect(room.state.get()).toMatchObject({ connected: true, writable: false, sending: true });
    relay.connections[0]?.socket.send(frame((encoder) => writeSyncStep1(encoder, relay.doc)));
    await until(() => room.state.get().writable && writes().length === 1);
    const [step2] = writes();
    Y.applyUpdate(
      relay.doc,
      decoding.readVarUint8Array(decoding.createDecoder((step2 as Uint8Array).subarray(2))),
    );
    expect(relay.doc.getMap('head').toJSON()).toEqual({ key: 'F', title: 'typed while away', by: 'Ines' });
    doc.getMap('head').set('tempo', '120');
    await until(() => writes().length === 2);
  });

  it('is sending from the first letter, also between being asked and having answered', async () => {
    const doc = new Y.Doc();
    doc.getMap('head').set('title', 'typed while away');
    relay.locked = true;
    open(false, doc);
    await until(() => room.state.get().synced);
    const states: boolean[] = [];
    room.state.subscribe(() => states.push(room.state.get().sending));
    relay.connections[0]?.socket.send(frame((encoder) => writeSyncStep1(encoder, relay.doc)));
    await until(() => writes().length === 1 && room.state.get().writable);
    expect(states).not.toContain(false);
    relay.connections[0]?.socket.send(encodeAcknowledgement(1));
    await until(() => !room.state.get().sending);
  });

  it('comes back to read when it is turned away because the book is locked', async () => {
    const doc = open(false);
    await until(() => room.state.get().writable);
    doc.getMap('head').set('title', 'typed a moment too late');
    relay.locked = true;
    relay.connections[0]?.socket.close(CLOSE_CODES.locked);
    await until(() => relay.connections.length === 2 && room.state.get().synced);
    expect(room.state.get()).toMatchObject({ writable: false, closed: null });
    expect(writes()).toEqual([]);
    expect(doc.getMap('head').get('title')).toBe('typed a moment too late');
  });

  it('comes back by itself after any other end, with what was typed meanwhile', async () => {
    const doc = open(false);
    await until(() => room.state.get().synced);
    relay.connections[0]?.socket.close(1012);
    await until(() => !room.state.get().connected);
    doc.getMap('head').set('title', 'typed while away');
    await until(() => relay.connections.length === 2 && writes().length > 0);
    const [step2] = writes();
    Y.applyUpdate(
      relay.doc,
      decoding.readVarUint8Array(decoding.createDecoder((step2 as Uint8Array).subarray(2))),
    );
    expect(relay.doc.getMap('head').get('title')).toBe('typed while away');
  });

  it('tells others a newer state of oneself after coming back, since they were told that one left', async () => {
    open(false);
    room.awareness.setLocalState({ member: 'm1' });
    await until(() => room.state.get().connected);
    const before = room.awareness.meta.get(room.doc.clientID)?.clock ?? 0;
    room.drop();
    expect(room.state.get().connected).toBe(false);
    room.connect();
    await until(() => room.state.get().connected);
    expect(room.awareness.meta.get(room.doc.clientID)?.clock).toBeGreaterThan(before);
  });
});
