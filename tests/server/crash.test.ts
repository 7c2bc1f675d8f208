import { expect, it } from 'vitest';
import * as Y from 'yjs';
import { decodeAcknowledgement } from '../../common/protocol/sync-frames.ts';
import { createLog } from '../../server/log.ts';
import { openRelay } from '../../server/relay.ts';
import { readSyncFrame } from '../../server/sync-frame.ts';
import { childRelays } from './support/child-relay.ts';
import { rawSocket, syncSocket } from './support/raw-socket.ts';
import { makeBand, testData } from './support/test-relay.ts';

const startRelay = childRelays();

const WRITERS = 3;

/** Lets several write as fast as they may, ends the relay in the middle; gives what each had heard of its own. */
const writeUntilEnded = async (data: string, signal: 'SIGTERM' | 'SIGKILL', afterMs: number) => {
  const relay = await startRelay(data);
  const { band, keys } = await makeBand(relay.http);
  const writers = await Promise.all(
    Array.from({ length: WRITERS }, async (_, writer) => {
      const socket = await syncSocket(`${relay.ws}/sync/${band}/chart.c1?key=${keys.player}&acks=1`);
      let sent = 0;
      let acknowledged = 0;
      const echoed = new Set<string>();
      const follower = new Y.Doc();
      follower.on('update', () => {
        for (const key of follower.getMap('m').keys()) echoed.add(key);
      });
      socket.socket.on('message', (message) => {
        acknowledged = decodeAcknowledgement(message as Buffer) ?? acknowledged;
        const frame = readSyncFrame(message as Buffer);
        if (frame?.kind === 'update') Y.applyUpdate(follower, frame.update);
      });
      const writing = setInterval(() => {
        if (sent >= 180 || socket.socket.readyState !== socket.socket.OPEN) return;
        sent++;
        socket.write((doc) => doc.getMap('m').set(`w${writer}-${sent}`, sent));
      }, 2);
      void socket.closed.then(() => clearInterval(writing));
      return {
        closed: socket.closed,
        heard: () => ({
          acknowledged: Array.from({ length: acknowledged }, (_, nth) => `w${writer}-${nth + 1}`),
          echoed: [...echoed],
        }),
      };
    }),
  );
  // A busy machine may take longer than that for the first of them.
  await expect.poll(() => writers.every(({ heard }) => heard().echoed.length > 0)).toBe(true);
  await new Promise((done) => setTimeout(done, afterMs));
  const exit = await relay.end(signal);
  const codes = await Promise.all(writers.map(async ({ closed }) => (await closed).code));
  return { band, keys, exit, codes, heard: writers.map(({ heard }) => heard()) };
};

const keptIn = async (data: string, band: string, key: string) => {
  const relay = await startRelay(data);
  const reader = await syncSocket(`${relay.ws}/sync/${band}/chart.c1?key=${key}`);
  reader.step1();
  await reader.hearsStep2();
  await relay.end('SIGTERM');
  return new Set(reader.doc.getMap('m').keys());
};

it.each([60, 120, 190, 300])(
  'loses nothing that was acknowledged or sent on when it is killed (after %i ms)',
  async (afterMs) => {
    const data = testData();
    const { band, keys, heard, exit } = await writeUntilEnded(data, 'SIGKILL', afterMs);
    expect(exit).toBeNull();
    const kept = await keptIn(data, band, keys.reader);
    for (const { acknowledged, echoed } of heard) {
      expect(echoed.length).toBeGreaterThan(0);
      expect([...acknowledged, ...echoed].filter((key) => !kept.has(key))).toEqual([]);
    }
  },
);

it.each([80, 200])(
  'says goodbye with 1012 and loses nothing it has heard when it is stopped (after %i ms)',
  async (afterMs) => {
    const data = testData();
    const { band, keys, heard, exit, codes } = await writeUntilEnded(data, 'SIGTERM', afterMs);
    expect(exit).toBe(0);
    expect(codes).toEqual(Array(WRITERS).fill(1012));
    const kept = await keptIn(data, band, keys.reader);
    for (const { acknowledged, echoed } of heard) {
      expect([...acknowledged, ...echoed].filter((key) => !kept.has(key))).toEqual([]);
    }
  },
);

it('keeps the epoch and runs its time on when it is started again', async () => {
  const data = testData();
  const pongOf = async (relay: Awaited<ReturnType<typeof startRelay>>, band: string, key: string) => {
    const live = await rawSocket(`${relay.ws}/live/${band}?key=${key}`);
    live.send(JSON.stringify({ t: 'ping', n: 1, t0: 0 }));
    return live.hears(
      (message) => JSON.parse(Buffer.from(message).toString()) as { epoch: string; t1: number },
    );
  };
  const first = await startRelay(data);
  const { band, keys } = await makeBand(first.http);
  const startMs = performance.now();
  const before = await pongOf(first, band, keys.reader);
  await first.end('SIGKILL');
  const after = await pongOf(await startRelay(data), band, keys.reader);
  const tookMs = performance.now() - startMs;
  expect(after.epoch).toBe(before.epoch);
  expect(after.t1 - before.t1).toBeGreaterThan(0);
  expect(after.t1 - before.t1).toBeLessThan(tookMs);
  expect(Math.abs(after.t1 - Date.now())).toBeLessThan(60_000);
});

it('does not let two relays work in one folder', async () => {
  const data = testData();
  await startRelay(data);
  const second = openRelay({
    config: { port: 0, host: '127.0.0.1', data, origins: [] },
    log: createLog('error', () => {}, Date.now),
    failed: () => {},
    pages: () => () => false,
  });
  await expect(second).rejects.toThrow(/Another relay works in the folder/);
});
