import { expect, it } from 'vitest';
import { awarenessFrame, readSyncFrame } from '../../server/sync-frame.ts';
import { rawSocket, statesOf, syncSocket } from './support/raw-socket.ts';
import { makeBand, type TestRelay, testRelay } from './support/test-relay.ts';

const SPEED = 50;

/** A relay for which fifty seconds pass in each. */
const hurriedRelay = () => {
  const startMs = performance.now();
  return testRelay({
    turnMs: 1_000 / SPEED,
    clock: {
      epoch: 'hurried',
      wallMs: Date.now,
      monotonicMs: () => (performance.now() - startMs) * SPEED,
    },
  });
};

const seconds = (count: number) => new Promise((done) => setTimeout(done, (count * 1_000) / SPEED));

const open = async (relay: TestRelay) => {
  const { band, keys } = await makeBand(relay.http);
  return { url: (document: string) => `${relay.ws}/sync/${band}/${document}?key=${keys.reader}`, band, keys };
};

it('keeps who only reads, and says something often enough for y-websocket', async () => {
  const relay = await hurriedRelay();
  const { url } = await open(relay);
  const reader = await syncSocket(url('book'));
  reader.step1();
  await reader.hearsStep2();
  const before = reader.heard.length;
  await seconds(100);
  expect(reader.socket.readyState).toBe(reader.socket.OPEN);
  // At least one message in every 30 s, with a margin for a machine that is busy.
  const since = reader.heard.slice(before).map((frame) => readSyncFrame(frame));
  expect(since.length).toBeGreaterThanOrEqual(4);
  expect(since[0]).toEqual({ kind: 'awareness', entries: [] });
});

it('cuts who gives no sign of life, on both sockets', async () => {
  const relay = await hurriedRelay();
  const { url, band, keys } = await open(relay);
  const sync = await rawSocket(url('book'));
  const live = await rawSocket(`${relay.ws}/live/${band}?key=${keys.reader}`);
  // A paused socket answers no ping.
  for (const { socket } of [sync, live]) socket.pause();
  await seconds(15);
  const connections = async () =>
    ((await (await fetch(`${relay.http}/health`)).json()) as { connections: number }).connections;
  expect(await connections()).toBe(2);
  await seconds(40);
  expect(await connections()).toBe(0);
});

it('shows who comes back on a new connection while the old one is dead, within seconds', async () => {
  const relay = await testRelay();
  const { url } = await open(relay);
  const watcher = await rawSocket(url('stage'));
  const speak = (clock: number) => awarenessFrame([{ client: 5, clock, state: '{"name":"Bea"}' }]);
  const old = await rawSocket(url('stage'));
  old.send(speak(3));
  await watcher.hears((frame) => statesOf([frame], 5).length > 0);
  old.socket.pause();
  const fresh = await rawSocket(url('stage'));
  fresh.send(speak(3));
  await watcher.hears((frame) => statesOf([frame], 5).length > 0 && watcher.heard.indexOf(frame) > 0);
  expect(statesOf(watcher.heard, 5).at(-1)).toEqual({ name: 'Bea', role: 'reader' });
});

it('leaves stored bytes alone that it cannot read: that document waits, the others go on', async () => {
  const relay = await testRelay();
  const { band, keys } = await makeBand(relay.http);
  relay.store.append(`${band}/chart.broken`, Uint8Array.of(1, 2, 3));
  const url = (document: string) => `${relay.ws}/sync/${band}/${document}?key=${keys.player}&acks=1`;
  const other = await syncSocket(url('chart.whole'));
  for (const act of ['join', 'write'] as const) {
    const broken = await syncSocket(url('chart.broken'));
    if (act === 'join') broken.step1();
    else broken.write((doc) => doc.getText('t').insert(0, 'x'));
    expect((await broken.closed).code).toBe(4500);
  }
  other.write((doc) => doc.getText('t').insert(0, 'x'));
  await other.acknowledged(1);
  expect(relay.store.load(`${band}/chart.broken`).map((bytes) => [...bytes])).toEqual([[1, 2, 3]]);
});
