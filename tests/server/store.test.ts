import { statSync } from 'node:fs';
import { join } from 'node:path';
import Libsql from 'libsql';
import { describe, expect, it } from 'vitest';
import { createLog } from '../../server/log.ts';
import { openStore, type Store } from '../../server/store.ts';
import { afterThis, testData } from './support/test-relay.ts';

const openTest = (data = testData()) => {
  const failures: Error[] = [];
  const store = openStore(
    data,
    createLog('error', () => {}, Date.now),
    (error) => failures.push(error),
  );
  let open = true;
  const close = async () => {
    if (open) await store.close();
    open = false;
  };
  afterThis(close);
  return { store, failures, data, close };
};

const committed = (store: Store) => new Promise<void>((done) => store.afterCommit(done));
const synced = (store: Store) => new Promise<void>((done) => store.afterSync(done));

describe('the store', () => {
  it('commits what comes in one turn together, then calls back in order', async () => {
    const { store } = openTest();
    const calls: string[] = [];
    store.append('b/book', Uint8Array.of(1));
    store.afterCommit(() => calls.push('first'));
    store.append('b/book', Uint8Array.of(2));
    store.afterCommit(() => calls.push('second'));
    expect(calls).toEqual([]);
    await committed(store);
    expect(calls).toEqual(['first', 'second']);
    await synced(store);
    expect(store.load('b/book').map((bytes) => [...bytes])).toEqual([[1], [2]]);
  });

  it('has everything again when it is opened again', async () => {
    const { store, data, close } = openTest();
    store.append('b/book', Uint8Array.of(1));
    store.append('b/chart.x', Uint8Array.of(2));
    store.compact('b/book', Uint8Array.of(9));
    store.append('b/book', Uint8Array.of(3));
    await close();
    const again = openTest(data).store;
    expect(again.load('b/book').map((bytes) => [...bytes])).toEqual([[9], [3]]);
    expect([...again.documentsOf('b')].sort()).toEqual(['book', 'chart.x']);
    expect(again.documentsOf('')).toEqual([]);
  });

  it('says that the disk failed, once, and never that something is safe which is not', async () => {
    const { store, failures } = openTest();
    store.database.pragma('query_only = ON');
    let said = false;
    store.append('b/book', Uint8Array.of(1));
    store.afterCommit(() => {
      said = true;
    });
    store.afterSync(() => {
      said = true;
    });
    await new Promise((done) => setTimeout(done, 50));
    store.append('b/book', Uint8Array.of(2));
    store.afterCommit(() => {
      said = true;
    });
    await new Promise((done) => setTimeout(done, 50));
    expect(failures).toHaveLength(1);
    expect(said).toBe(false);
    store.database.pragma('query_only = OFF');
  });

  it('moves its log into the database without holding up the event loop', async () => {
    const { store, data } = openTest();
    const bytes = new Uint8Array(8_000);
    let longestMs = 0;
    let lastMs = performance.now();
    for (let nth = 0; nth < 1_500; nth++) {
      store.append(`b/chart.n${nth % 50}`, bytes);
      await new Promise((done) => setImmediate(done));
      longestMs = Math.max(longestMs, performance.now() - lastMs);
      lastMs = performance.now();
    }
    for (let tries = 0; tries < 200 && statSync(join(data, 'tillcue.db')).size < 4e6; tries++) {
      await new Promise((done) => setTimeout(done, 20));
    }
    expect(statSync(join(data, 'tillcue.db')).size).toBeGreaterThan(4e6);
    // Generous: other tests run beside this one. A checkpoint on the event loop takes several times as long.
    expect(longestMs).toBeLessThan(500);
  });

  it('does not touch a database of a newer version', async () => {
    const { data, close } = openTest();
    await close();
    const database = new Libsql(join(data, 'tillcue.db'));
    database.pragma('user_version = 999');
    database.close();
    expect(() => openTest(data)).toThrow('written by a newer Tillcue');
  });
});
