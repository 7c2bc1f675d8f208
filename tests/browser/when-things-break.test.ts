import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { type Band, callTune, countInFrom, padKey, sitDown } from '../support/band.ts';
import { sampleBars } from '../support/same-bar.ts';

let band: Band;

beforeAll(async () => {
  band = await sitDown(inject('chromium'));
});
afterAll(() => band?.goHome());

describe('when things break', () => {
  it('no stand jumps while the relay is killed and started again, and cues wait', async () => {
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
    expect(await padKey(band, 'lastChorus').getAttribute('data-state')).toBe('blank');
    expect(await padKey(band, 'lastChorus').getAttribute('aria-label')).toMatch(/relay does not answer/);
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
});
