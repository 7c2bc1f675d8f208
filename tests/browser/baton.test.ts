import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { type Band, callTune, countInFrom, flag, sitDown } from '../support/band.ts';
import { goTo } from '../support/tablets.ts';

let band: Band;

beforeAll(async () => {
  band = await sitDown(inject('chromium'));
});
afterAll(() => band?.goHome());

describe('the baton', () => {
  it('is passed to a player, who calls the last chorus, and is taken back', async () => {
    const { leader, sax, guitar } = band;
    const rail = sax.page.getByRole('navigation', { name: 'Views' });
    await callTune(band, 'Ropewalk');
    await countInFrom(band, 'Solos', 1);
    expect(await rail.getByText('Podium', { exact: true }).count()).toBe(0);
    await leader.page.getByRole('button', { name: /^leads/ }).click();
    const sheet = leader.page.getByRole('dialog');
    await sheet.locator('li', { hasText: 'Tomas' }).getByRole('button', { name: /baton/i }).click();
    await rail.getByText('Podium', { exact: true }).waitFor();
    await goTo(sax, 'Podium');
    await sax.page.locator('.pad-key[data-key-id="lastChorus"][data-state="ready"]').click();
    await flag(guitar, 'lastChorus').waitFor();
    await guitar.page.locator('.stand-dot', { hasText: 'Tomas' }).waitFor();
    await sheet.locator('li', { hasText: 'Tomas' }).getByRole('button', { name: /back/i }).click();
    await rail.getByText('Podium', { exact: true }).waitFor({ state: 'detached' });
    await guitar.page.locator('.stand-dot', { hasText: 'Ines' }).waitFor();
  });
});
