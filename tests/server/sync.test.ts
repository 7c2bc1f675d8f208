import * as encoding from 'lib0/encoding';
import { describe, expect, it } from 'vitest';
import { WebSocket } from 'ws';
import { WebsocketProvider } from 'y-websocket';
import * as Y from 'yjs';
import { LIMITS } from '../../common/protocol/limits.ts';
import { awarenessFrame, readSyncFrame } from '../../server/sync-frame.ts';
import { rawSocket, statesOf, syncSocket } from './support/raw-socket.ts';
import { afterThis, makeBand, testRelay } from './support/test-relay.ts';
import { until } from './support/wait-until.ts';

const stand = (ws: string, band: string, document: string, key: string) => {
  const doc = new Y.Doc();
  const provider = new WebsocketProvider(`${ws}/sync`, `${band}/${document}`, doc, {
    params: { key },
    disableBc: true,
    WebSocketPolyfill: WebSocket as unknown as typeof globalThis.WebSocket,
  });
  afterThis(async () => provider.destroy());
  return { doc, provider };
};

const textOf = (doc: Y.Doc) => doc.getText('t').toString();
const setText = (text: string) => (doc: Y.Doc) => doc.getText('t').insert(0, text);

describe('y-websocket clients', () => {
  it('share a document, and find it again after everybody has left', async () => {
    const { ws, http } = await testRelay();
    const { band, keys } = await makeBand(http);
    const ines = stand(ws, band, 'chart.c1', keys.leader);
    const bea = stand(ws, band, 'chart.c1', keys.player);
    const guest = stand(ws, band, 'chart.c1', keys.reader);
    await until(() => ines.provider.synced && bea.provider.synced && guest.provider.synced, 'synced');
    ines.doc.getText('t').insert(0, 'Slow ');
    await until(() => textOf(bea.doc) === 'Slow ');
    bea.doc.getText('t').insert(5, 'Ferry');
    await until(() => textOf(ines.doc) === 'Slow Ferry' && textOf(guest.doc) === 'Slow Ferry');
    for (const { provider } of [ines, bea, guest]) provider.destroy();
    const tomas = stand(ws, band, 'chart.c1', keys.player);
    await until(() => tomas.provider.synced);
    expect(textOf(tomas.doc)).toBe('Slow Ferry');
  });

  it('bring along what was typed while they were away', async () => {
    const { ws, http } = await testRelay();
    const { band, keys } = await makeBand(http);
    const ines = stand(ws, band, 'book', keys.leader);
    const bea = stand(ws, band, 'book', keys.player);
    await until(() => ines.provider.synced && bea.provider.synced);
    ines.provider.disconnect();
    ines.doc.getText('t').insert(0, 'a');
    bea.doc.getText('t').insert(0, 'b');
    ines.provider.connect();
    await until(() => textOf(ines.doc).length === 2 && textOf(ines.doc) === textOf(bea.doc));
  });

  it('do not see the documents of another band, nor other documents of their own', async () => {
    const { ws, http } = await testRelay();
    const [one, two] = [await makeBand(http), await makeBand(http)];
    const writer = stand(ws, one.band, 'chart.c1', one.keys.player);
    const others = [
      stand(ws, one.band, 'chart.c2', one.keys.player),
      stand(ws, two.band, 'chart.c1', two.keys.player),
    ];
    await until(() => writer.provider.synced && others.every(({ provider }) => provider.synced));
    writer.doc.getText('t').insert(0, 'x');
    const late = stand(ws, one.band, 'chart.c1', one.keys.player);
    await until(() => textOf(late.doc) === 'x');
    expect(others.map(({ doc }) => textOf(doc))).toEqual(['', '']);
  });

  it('see each other, and see who has left', async () => {
    const { ws, http } = await testRelay();
    const { band, keys } = await makeBand(http);
    const ines = stand(ws, band, 'stage', keys.leader);
    const bea = stand(ws, band, 'stage', keys.player);
    ines.provider.awareness.setLocalStateField('name', 'Ines');
    bea.provider.awareness.setLocalStateField('name', 'Bea');
    const seen = () => ines.provider.awareness.getStates().get(bea.doc.clientID);
    await until(() => seen()?.['name'] === 'Bea');
    expect(seen()?.['role']).toBe('player');
    bea.provider.disconnect();
    await until(() => seen() === undefined);
    bea.provider.connect();
    await until(() => seen()?.['name'] === 'Bea', 'seen again');
  });

  it('stop trying when their key is no good, when a message is too large, when they may not write', async () => {
    const { ws, http } = await testRelay();
    const { band, keys } = await makeBand(http);
    const closedWith = async (key: string, document: string, text: string) => {
      const { doc, provider } = stand(ws, band, document, key);
      const codes: number[] = [];
      provider.on('closed', ({ code }) => codes.push(code));
      if (text !== '') {
        await until(() => provider.synced);
        doc.getText('t').insert(0, text);
      }
      await until(() => codes.length > 0, `closed (${document})`);
      expect(provider.shouldConnect).toBe(false);
      return codes;
    };
    expect(await closedWith('wrong', 'book', '')).toEqual([4401]);
    expect(await closedWith(keys.leader, 'songs', '')).toEqual([4404]);
    expect(await closedWith(keys.player, 'book', 'x'.repeat(LIMITS.messageBytes))).toEqual([4413]);
    expect(await closedWith(keys.reader, 'book', 'x')).toEqual([4403]);
  });
});

describe('who may write', () => {
  it.each([
    ['reader', 'book'],
    ['reader', 'chart.c1'],
    ['player', 'stage'],
    ['leader', 'stage'],
  ] as const)('is not a %s in %s: closed with 4403, nothing spread, nothing kept', async (role, document) => {
    const { ws, http } = await testRelay();
    const { band, keys } = await makeBand(http);
    const watcher = await syncSocket(`${ws}/sync/${band}/${document}?key=${keys.leader}`);
    watcher.step1();
    await watcher.hearsStep2();
    for (const kind of ['update', 'step2'] as const) {
      const writer = await syncSocket(`${ws}/sync/${band}/${document}?key=${keys[role]}`);
      writer.step1();
      await writer.hearsStep2();
      writer.doc.getText('t').insert(0, 'x');
      if (kind === 'step2') writer.step2();
      else writer.update(Y.encodeStateAsUpdate(writer.doc));
      expect((await writer.closed).code).toBe(4403);
    }
    const later = await syncSocket(`${ws}/sync/${band}/${document}?key=${keys.leader}`);
    later.step1();
    await later.hearsStep2();
    expect([textOf(watcher.doc), textOf(later.doc)]).toEqual(['', '']);
  });

  it('lets a reader answer with an empty step 2', async () => {
    const { ws, http } = await testRelay();
    const { band, keys } = await makeBand(http);
    const reader = await syncSocket(`${ws}/sync/${band}/book?key=${keys.reader}`);
    reader.step2();
    reader.step1();
    await reader.hearsStep2();
    expect(reader.socket.readyState).toBe(reader.socket.OPEN);
  });

  it('is decided by the page’s origin as well, where there is one', async () => {
    const { ws, http } = await testRelay();
    const { band, keys } = await makeBand(http);
    const url = `${ws}/sync/${band}/book?key=${keys.player}`;
    expect((await (await rawSocket(url, { origin: 'https://elsewhere.example' })).closed).code).toBe(4431);
    for (const origin of [http, 'https://board.example']) {
      const { socket } = await rawSocket(url, { origin });
      expect(socket.readyState).toBe(socket.OPEN);
    }
  });
});

describe('acknowledgements', () => {
  it('count the writes of a connection that are on the disk, for those who asked', async () => {
    const { ws, http } = await testRelay();
    const { band, keys } = await makeBand(http);
    const asking = await syncSocket(`${ws}/sync/${band}/book?key=${keys.player}&acks=1`);
    const plain = await syncSocket(`${ws}/sync/${band}/book?key=${keys.player}`);
    asking.step1();
    plain.step1();
    await asking.hearsStep2();
    await plain.hearsStep2();
    asking.step2();
    await asking.acknowledged(1);
    for (let nth = 0; nth < 20; nth++) asking.write(setText('a'));
    await asking.acknowledged(21);
    await until(() => textOf(plain.doc).length === 20);
    expect(plain.heard.some((frame) => frame[0] === 4)).toBe(false);
  });

  it('wait for what an update builds on, and the tablet is asked for it', async () => {
    const { ws, http } = await testRelay();
    const { band, keys } = await makeBand(http);
    const socket = await syncSocket(`${ws}/sync/${band}/book?key=${keys.player}&acks=1`);
    const updates: Uint8Array[] = [];
    socket.doc.on('update', (update: Uint8Array) => updates.push(update));
    for (const letter of 'abc') socket.doc.getText('t').insert(0, letter);
    socket.update(updates[1] ?? new Uint8Array());
    await socket.hears((message) => readSyncFrame(message)?.kind === 'step1');
    socket.update(updates[2] ?? new Uint8Array());
    expect(socket.heard.some((frame) => frame[0] === 4)).toBe(false);
    socket.step2();
    await socket.acknowledged(3);
    const other = await syncSocket(`${ws}/sync/${band}/book?key=${keys.player}`);
    other.step1();
    await other.hearsStep2();
    expect(textOf(other.doc)).toBe('cba');
  });
});

describe('joining', () => {
  it('gives the whole document in the first step 2, however others come and go and write meanwhile', async () => {
    const { ws, http } = await testRelay();
    const { band, keys } = await makeBand(http);
    const url = `${ws}/sync/${band}/chart.c1?key=${keys.player}`;
    const writer = await syncSocket(url);
    writer.step1();
    await writer.hearsStep2();
    for (let round = 0; round < 60; round++) {
      writer.write(setText('x'));
      const sent = round + 1;
      const joiners = await Promise.all(Array.from({ length: 5 }, () => syncSocket(url)));
      await Promise.all(
        joiners.map(async (joiner) => {
          joiner.step1();
          const first = new Y.Doc();
          Y.applyUpdate(first, await joiner.hearsStep2());
          expect(textOf(first).length).toBeGreaterThanOrEqual(sent - 1);
          await until(() => textOf(joiner.doc).length >= sent);
        }),
      );
      for (const { socket } of joiners) socket.close();
    }
  });

  it('is quick after twenty thousand edits, and no larger than the state', async () => {
    const relay = await testRelay();
    const { band, keys } = await makeBand(relay.http);
    const doc = new Y.Doc();
    doc.on('update', (update: Uint8Array) => relay.store.append(`${band}/chart.c1`, update));
    for (let nth = 0; nth < 20_000; nth++) doc.getText('t').insert(nth, String.fromCharCode(97 + (nth % 26)));
    const url = `${relay.ws}/sync/${band}/chart.c1?key=${keys.player}`;
    const first = await syncSocket(url);
    first.step1();
    expect((await first.hearsStep2()).length).toBeLessThanOrEqual(Y.encodeStateAsUpdate(doc).length * 1.01);
    expect(textOf(first.doc)).toBe(textOf(doc));
  });
});

describe('awareness', () => {
  const speak = (client: number, state: unknown, clock = 1) =>
    awarenessFrame([{ client, clock, state: JSON.stringify(state) }]);

  it('lets nobody rename or remove somebody else, whatever clock is claimed', async () => {
    const { ws, http } = await testRelay();
    const { band, keys } = await makeBand(http);
    const url = `${ws}/sync/${band}/stage?key=`;
    const ines = await rawSocket(url + keys.leader);
    ines.send(speak(11, { name: 'Ines' }));
    const watcher = await rawSocket(url + keys.reader);
    await watcher.hears((message) => statesOf([message], 11).length > 0);
    const mallory = await rawSocket(url + keys.player);
    mallory.send(speak(11, { name: 'Mallory' }, 1e9));
    mallory.send(speak(11, null, 1e9));
    mallory.send(speak(12, { name: 'Mallory', role: 'leader' }));
    mallory.send(speak(11, { name: 'Mallory' }, 2e9));
    await watcher.hears((message) => statesOf([message], 12).length > 0);
    mallory.socket.close();
    await watcher.hears((message) => statesOf([message], 12).includes(null));
    expect(statesOf(watcher.heard, 11)).toEqual([{ name: 'Ines', role: 'leader' }]);
    expect(statesOf(watcher.heard, 12)[0]).toEqual({ name: 'Mallory', role: 'player' });
    expect(ines.socket.readyState).toBe(ines.socket.OPEN);
  });

  it('closes who sends states that cannot be read or are too large', async () => {
    const { ws, http } = await testRelay();
    const { band, keys } = await makeBand(http);
    const url = `${ws}/sync/${band}/stage?key=${keys.player}`;
    const odd = await rawSocket(url);
    odd.send(awarenessFrame([{ client: 1, clock: 1, state: '{' }]));
    expect((await odd.closed).code).toBe(4400);
    const large = await rawSocket(url);
    large.send(speak(1, { a: 'x'.repeat(3_000) }));
    expect((await large.closed).code).toBe(4413);
  });

  it('sends fifty who move at once in frames for many, not one frame for each', async () => {
    const { ws, http } = await testRelay({ turnMs: 200 });
    const { band, keys } = await makeBand(http);
    const url = `${ws}/sync/${band}/stage?key=${keys.player}`;
    const sockets = await Promise.all(Array.from({ length: 50 }, () => rawSocket(url)));
    for (const [nth, socket] of sockets.entries()) socket.send(speak(nth + 1, { name: `n${nth}` }));
    const [first] = sockets;
    if (!first) throw new Error('no socket');
    await until(
      () =>
        new Set(sockets.flatMap((_, nth) => (statesOf(first.heard, nth + 1).length ? [nth] : []))).size ===
        49,
    );
    const before = first.heard.length;
    // All renew: what has not changed is held back and goes out together.
    for (const [nth, socket] of sockets.entries()) socket.send(speak(nth + 1, { name: `n${nth}` }, 2));
    await until(() => first.heard.length > before, 'renewed');
    expect(first.heard.length - before).toBeLessThanOrEqual(2);
  });
});

describe('what harms others', () => {
  it('is not done by garbage: the connection goes, the relay stays', async () => {
    const { ws, http } = await testRelay();
    const { band, keys } = await makeBand(http);
    const url = `${ws}/sync/${band}/book?key=${keys.player}`;
    const frames: [string, Uint8Array | string, number][] = [
      ['nothing', new Uint8Array(), 4400],
      ['an unknown type', Uint8Array.of(99), 4400],
      ['a frame cut short', Uint8Array.of(0, 2, 50, 1), 4400],
      ['an endless number', new Uint8Array(40).fill(255), 4400],
      ['an update that is none', Uint8Array.of(0, 2, 3, 9, 9, 9), 4400],
      ['a state vector that is none', Uint8Array.of(0, 0, 2, 200, 200), 4400],
      ['a text', 'hello', 4400],
      [
        'many awareness entries',
        encoding.encode((encoder) => {
          encoding.writeVarUint(encoder, 1);
          encoding.writeVarUint8Array(encoder, Uint8Array.of(255, 255, 255, 255, 15));
        }),
        4400,
      ],
    ];
    for (const [what, frame, code] of frames) {
      const socket = await rawSocket(url);
      socket.send(frame);
      expect([what, (await socket.closed).code]).toEqual([what, code]);
    }
    // Straight onto the wire: reserved bits set; a text that is no UTF-8; an unmasked frame; a length beyond all.
    for (const bytes of [
      [0xf2, 0x80, 0, 0, 0, 0],
      [0x81, 0x82, 0, 0, 0, 0, 0xff, 0xff],
      [0x82, 0x01, 0x00],
      [0x82, 0xff, 0x7f, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0, 0, 0, 0],
    ]) {
      for (const path of [`sync/${band}/book`, `live/${band}`, 'sync/nobody/book']) {
        const socket = await rawSocket(`${ws}/${path}?key=${keys.player}`);
        const stream = (socket.socket as unknown as { _socket: import('node:net').Socket | null })._socket;
        stream?.write(Uint8Array.from(bytes));
        await socket.closed;
      }
    }
    expect((await fetch(`${http}/health`)).status).toBe(200);
  });

  it('is not done by flooding: 4429, and only for who floods', async () => {
    const { ws, http } = await testRelay();
    const { band, keys } = await makeBand(http);
    const url = `${ws}/sync/${band}/book?key=${keys.player}`;
    const other = await rawSocket(url);
    const flood = await rawSocket(url);
    for (let nth = 0; nth < LIMITS.messageBurst + 100; nth++) flood.send(Uint8Array.of(3));
    expect((await flood.closed).code).toBe(4429);
    expect(other.socket.readyState).toBe(other.socket.OPEN);
  });

  it('is not done by too many connections from one address', async () => {
    const { ws, http } = await testRelay({ countLoopback: true });
    const { band, keys } = await makeBand(http);
    const url = `${ws}/live/${band}?key=${keys.player}`;
    const sockets = await Promise.all(
      Array.from({ length: LIMITS.connectionsPerAddress }, () => rawSocket(url)),
    );
    expect((await (await rawSocket(url)).closed).code).toBe(4430);
    sockets[0]?.socket.terminate();
    await until(() => sockets[0]?.socket.readyState === 3);
    await new Promise((done) => setTimeout(done, 50));
    const { socket } = await rawSocket(url);
    expect(socket.readyState).toBe(socket.OPEN);
  });

  it('is not done by a document without end: 4413, and what was there stays', async () => {
    const { ws, http } = await testRelay();
    const { band, keys } = await makeBand(http);
    const url = `${ws}/sync/${band}/chart.c1?key=${keys.player}&acks=1`;
    const writer = await syncSocket(url);
    for (let nth = 0; nth < 5; nth++)
      writer.write((doc) => doc.getMap('m').set(String(nth), 'x'.repeat(900_000)));
    expect((await writer.closed).code).toBe(4413);
    const reader = await syncSocket(url);
    reader.step1();
    await reader.hearsStep2();
    expect([...reader.doc.getMap('m').keys()].sort()).toEqual(['0', '1', '2', '3']);
  });

  it('is not done by documents without number: 4409', async () => {
    const relay = await testRelay();
    const { band, keys } = await makeBand(relay.http);
    const one = new Y.Doc();
    one.getText('t').insert(0, 'x');
    // The name of the band is in the book: that is one.
    for (let nth = 1; nth < LIMITS.documentsPerBand; nth++) {
      relay.store.append(`${band}/chart.n${nth}`, Y.encodeStateAsUpdate(one));
    }
    const more = await syncSocket(`${relay.ws}/sync/${band}/chart.more?key=${keys.player}`);
    more.write(setText('x'));
    expect((await more.closed).code).toBe(4409);
    const known = await syncSocket(`${relay.ws}/sync/${band}/chart.n1?key=${keys.player}&acks=1`);
    known.write(setText('y'));
    await known.acknowledged(1);
  });

  it('is not done by who does not read: cut, and memory stays where it was', async () => {
    const { ws, http, logged } = await testRelay();
    const { band, keys } = await makeBand(http);
    const url = `${ws}/sync/${band}/chart.c1?key=`;
    const slow = await rawSocket(url + keys.reader);
    slow.socket.pause();
    const writer = await syncSocket(`${url}${keys.player}&acks=1`);
    const before = process.memoryUsage().rss;
    // One key overwritten: 60 MB of traffic, a small document.
    for (let nth = 0; nth < 120; nth++) {
      writer.write((doc) => doc.getMap('m').set('k', String(nth % 10).repeat(500_000)));
      if (nth % 10 === 9) await writer.acknowledged(nth + 1);
    }
    expect(logged.some((line) => line.includes('reads too slowly'))).toBe(true);
    expect(process.memoryUsage().rss - before).toBeLessThan(150e6);
    expect(writer.socket.readyState).toBe(writer.socket.OPEN);
  });
});
