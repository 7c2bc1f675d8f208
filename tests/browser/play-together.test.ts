import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { allAre, type Band, callTune, countInFrom, padKey, sitDown } from '../support/band.ts';
import { sampleBars } from '../support/same-bar.ts';

let band: Band;

beforeAll(async () => {
  band = await sitDown(inject('chromium'));
});
afterAll(() => band?.goHome());

describe('a band plays a tune together', () => {
  it('has joined by link and sees the tune that is called, each in the key they read', async () => {
    const { sax, guitar, stands } = band;
    await callTune(band, 'Slow Ferry');
    for (const { page } of stands) {
      await page.getByRole('heading', { name: 'Slow Ferry' }).first().waitFor();
    }
    // Concert E flat is read as F by a tenor sax (written a major second above, common practice, no source).
    await expect.poll(() => sax.page.locator('.stand-key').textContent()).toMatch(/tenor sax in\s+F/);
    await expect.poll(() => guitar.page.locator('.stand-key').textContent()).toMatch(/^E\s*♭?\s*blues/);
  });

  it('is counted in from the top, and the same bar is lit on all three, as computed', async () => {
    await callTune(band, 'Ropewalk');
    await padKey(band, 'start').click();
    await allAre(band, 'count');
    await allAre(band, 'playing');
    const { taken, astray, bars } = await sampleBars(band.tablets, 240);
    expect(bars.size).toBeGreaterThan(2);
    expect(astray.length / taken, astray.join('; ')).toBeLessThanOrEqual(0.01);
  });

  it('takes a tempo by the key on every stand and stays together', async () => {
    await callTune(band, 'Ropewalk');
    await countInFrom(band, 'Solos', 1);
    const faster = band.leader.page.getByRole('button', { name: 'faster' });
    await faster.click();
    for (const { page } of band.stands) {
      await expect.poll(() => page.locator('.stand-tempo').textContent()).not.toMatch(/176/);
    }
    const { taken, astray } = await sampleBars(band.tablets, 60);
    expect(astray.length / taken, astray.join('; ')).toBeLessThanOrEqual(0.01);
  });
});
