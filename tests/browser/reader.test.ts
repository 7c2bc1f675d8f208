import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import WebSocket from 'ws';
import { type Band, callTune, sitDown } from '../support/band.ts';
import { goTo, join } from '../support/tablets.ts';

let band: Band;

beforeAll(async () => {
  band = await sitDown(inject('chromium'));
});
afterAll(() => band?.goHome());

/** Sends one message on a document's socket and tells the code with which the relay closed it. */
const closedAfter = async (url: string, message: Uint8Array): Promise<number> => {
  const socket = new WebSocket(url);
  const closed = new Promise<number>((done) => socket.on('close', done));
  await new Promise((done) => socket.on('open', done));
  socket.send(message);
  return closed;
};

describe('a reader', () => {
  it('cannot edit, neither by the page nor by a raw websocket', async () => {
    const { browser, relay } = band;
    await callTune(band, 'Ropewalk');
    const reader = await join(browser, relay.link('reader'), { name: 'Mara', instrument: 'Voice' });
    await goTo(reader, 'Stand');
    await goTo(reader, 'Pencil');
    await reader.page.locator('.pencil [data-bar-key]').first().click();
    await reader.page.locator('.pencil .strip').waitFor();
    expect(await reader.page.locator('.pencil [data-bar-field]').count()).toBe(0);
    expect(await reader.page.locator('.pencil .tool').count()).toBe(0);
    await reader.context.close();

    const [, name, key] = /#join\/([^/]+)\/(.+)$/.exec(relay.link('reader')) ?? [];
    // A sync message (0) with an update (2) of two bytes: an empty Yjs update.
    const update = Uint8Array.of(0, 2, 2, 0, 0);
    const url = `ws://127.0.0.1:${relay.port}/sync/${name}/book?key=${key}`;
    expect(await closedAfter(url, update)).toBe(4403);
  });
});
