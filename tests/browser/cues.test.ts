import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { type Band, callTune, countInFrom, flag, padKey, sitDown } from '../support/band.ts';

let band: Band;

beforeAll(async () => {
  band = await sitDown(inject('chromium'));
});
afterAll(() => band?.goHome());

const flagOnAll = (kind: string, state: 'visible' | 'detached' = 'visible') =>
  Promise.all(band.stands.map((stand) => flag(stand, kind).waitFor({ state })));

describe('cues', () => {
  it('the last chorus is called, flagged everywhere, taken back, called again and lands', async () => {
    await callTune(band, 'Ropewalk');
    await countInFrom(band, 'Solos', 5);
    await padKey(band, 'lastChorus').click();
    await flagOnAll('lastChorus');
    for (const stand of band.stands) {
      await expect.poll(() => flag(stand, 'lastChorus').textContent()).toMatch(/Last chorus.*bars?/);
    }
    await band.leader.page.getByRole('button', { name: 'take back Last chorus' }).click();
    await flagOnAll('lastChorus', 'detached');
    await padKey(band, 'lastChorus').click();
    await flagOnAll('lastChorus');
    // The trade's leg follows the solos in this tune.
    await Promise.all(
      band.stands.map(({ page }) => page.locator('.place-row[data-leg-name="Fours"]').waitFor()),
    );
    expect(await band.leader.page.locator('.place-row[data-leg-name="Fours"]').count()).toBe(1);
  });

  it('a break is called, hit on one, and counted back in', async () => {
    await callTune(band, 'Ropewalk');
    await countInFrom(band, 'Solos', 3);
    await padKey(band, 'break').click();
    await flagOnAll('break');
    await Promise.all(band.stands.map(({ page }) => page.locator('[data-now][data-out="hit"]').waitFor()));
    await Promise.all(
      band.stands.map(({ page }) => page.locator('[data-now][data-counted]').first().waitFor()),
    );
    await Promise.all(band.stands.map(({ page }) => page.locator('[data-now]:not([data-out])').waitFor()));
  });
});
