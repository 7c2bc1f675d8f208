import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { type Band, callTune, countInFrom, padKey, sitDown } from '../support/band.ts';
import { sampleBars } from '../support/same-bar.ts';
import type { Tablet } from '../support/tablets.ts';

let band: Band;

beforeAll(async () => {
  band = await sitDown(inject('chromium'));
});
afterAll(() => band?.goHome());

/** The machine time by which the relay answers. */
const epochOf = ({ page }: Tablet, live: string): Promise<string> =>
  page.evaluate(
    (url) =>
      new Promise<string>((done, failed) => {
        const socket = new WebSocket(url);
        socket.onerror = () => failed(new Error(`no connection to ${url}`));
        socket.onopen = () => socket.send(JSON.stringify({ t: 'ping', n: 1, t0: 0 }));
        socket.onmessage = ({ data }) => {
          socket.close();
          done((JSON.parse(String(data)) as { epoch: string }).epoch);
        };
      }),
    live,
  );

/** Notes each time that a stand says its place has jumped. */
const watchReseeks = ({ page }: Tablet) =>
  page.evaluate(() => {
    const words: string[] = [];
    Object.assign(window, { reseeks: words });
    new MutationObserver(() => {
      const strip = document.querySelector('[data-strip="reseek"]')?.textContent;
      if (strip != null && words.at(-1) !== strip) words.push(strip);
    }).observe(document.body, { subtree: true, childList: true });
  });

const reseeksOf = ({ page }: Tablet) =>
  page.evaluate(() => (window as unknown as { reseeks: string[] }).reseeks);

/** This tablet sleeps for so long as most do: nothing runs, and its clock stands still. */
const sleep = ({ page }: Tablet, forMs: number) =>
  page.evaluate((ms) => {
    const { performance } = window;
    const now = performance.now.bind(performance);
    const wakesAtMs = Date.now() + ms;
    while (Date.now() < wakesAtMs);
    performance.now = () => now() - ms;
  }, forMs);

describe('when things break', () => {
  it('no stand jumps while the relay is killed and started again, and cues do not go out', async () => {
    const { leader, sax, relay, stands, tablets } = band;
    await callTune(band, 'Ropewalk');
    await countInFrom(band, 'Solos', 1);
    const reloads: string[] = [];
    for (const { page } of tablets) page.on('load', () => reloads.push(page.url()));
    let back = false;
    const watching = sampleBars(tablets, 200, () => back);
    await relay.stop('SIGKILL');
    for (const { page } of [sax, leader]) {
      await page.locator('[data-strip="away"]').waitFor();
    }
    const lastChorus = padKey(band, 'lastChorus');
    expect(await lastChorus.getAttribute('data-state')).toBe('away');
    expect(await lastChorus.getAttribute('aria-label')).toMatch(/relay does not answer/);
    // It keeps its place and its name, and who presses it is told that nothing went out.
    expect(await lastChorus.textContent()).toContain('Last chorus');
    const said = leader.page.locator('.podium-words');
    for (const key of [
      lastChorus,
      leader.page.locator('.spot-key').first(),
      leader.page.getByLabel('faster'),
    ]) {
      await key.click({ force: true });
      await said.getByText('nobody would hear this').waitFor();
      await said.waitFor({ state: 'detached' });
    }
    await relay.start();
    for (const { page } of tablets) {
      await page.locator('[data-strip="away"]').waitFor({ state: 'detached', timeout: 20_000 });
    }
    back = true;
    const { taken, astray } = await watching;
    expect(astray.length / taken, astray.join('; ')).toBeLessThanOrEqual(0.01);
    // The next cue finds everybody where they were.
    await padKey(band, 'stop').click();
    await Promise.all(stands.map(({ page }) => page.locator('main.stand[data-state="ended"]').waitFor()));
    expect(reloads).toEqual([]);
  });

  it('no place jumps when the relay’s machine was started anew and counts another time', async () => {
    const { leader, sax, relay, tablets, stands } = band;
    await callTune(band, 'Ropewalk');
    await countInFrom(band, 'Solos', 1);
    const [, bandId, key] = /#join\/([^/]+)\/(.+)$/.exec(relay.link('reader')) ?? [];
    const live = `${relay.origin.replace('http', 'ws')}/live/${bandId}?key=${key}`;
    const before = await epochOf(leader, live);
    await Promise.all(tablets.map(watchReseeks));
    let back = false;
    const watching = sampleBars(tablets, 200, () => back);
    await relay.stop('SIGKILL');
    for (const { page } of [sax, leader]) await page.locator('[data-strip="away"]').waitFor();
    await relay.start('new');
    for (const { page } of tablets) {
      await page.locator('[data-strip="away"]').waitFor({ state: 'detached', timeout: 20_000 });
      await page.waitForFunction(() => window.tillcue?.board.clock.get().ready === true);
    }
    expect(await epochOf(leader, live)).not.toBe(before);
    back = true;
    const { taken, astray } = await watching;
    expect(astray.length / taken, astray.join('; ')).toBeLessThanOrEqual(0.01);
    // Those who followed the old time and one who only knows the new one are at the same place.
    await sax.page.reload();
    await sax.page.locator('main.stand[data-state="playing"]').waitFor();
    const after = await sampleBars(stands, 30);
    expect(after.astray.length / after.taken, after.astray.join('; ')).toBeLessThanOrEqual(0.01);
    expect((await Promise.all([leader, ...stands.slice(1)].map(reseeksOf))).flat()).toEqual([]);
  });

  it('a stand that slept while the band played says that it has jumped, and stands where the others do', async () => {
    const { sax, guitar, stands } = band;
    await callTune(band, 'Ropewalk');
    await countInFrom(band, 'Solos', 1);
    await Promise.all(stands.map(watchReseeks));
    await sleep(sax, 5000);
    const strip = sax.page.locator('[data-strip="reseek"]');
    await strip.waitFor();
    expect(await strip.textContent()).toMatch(
      /^Jumped ahead [456] seconds: this stand was behind the band\.$/,
    );
    const { taken, astray } = await sampleBars(stands, 40);
    expect(astray.length / taken, astray.join('; ')).toBeLessThanOrEqual(0.01);
    // It is said for a moment and in few words, and not again.
    await strip.waitFor({ state: 'detached', timeout: 10_000 });
    expect(await reseeksOf(sax)).toHaveLength(1);
    expect(await reseeksOf(guitar)).toEqual([]);
  });
});
