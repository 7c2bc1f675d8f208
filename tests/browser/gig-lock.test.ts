import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { type Band, callTune, sitDown } from '../support/band.ts';
import { goTo, type Tablet } from '../support/tablets.ts';

let band: Band;

beforeAll(async () => {
  band = await sitDown(inject('chromium'));
});
afterAll(() => band?.goHome());

const symbols =
  ({ page }: Tablet) =>
  () =>
    page
      .locator('.pencil [data-symbol]')
      .evaluateAll((all) => all.map((one) => one.getAttribute('data-symbol')));

const openBar = async ({ page }: Tablet, bar: number) => {
  await page.locator('.pencil [data-bar-id]').nth(bar).locator('[data-bar-key]').click();
};

/** Touches a bar of the pencil, counted from 0, and begins to type into it. */
const type = async (tablet: Tablet, bar: number, text: string) => {
  await openBar(tablet, bar);
  await tablet.page.locator('.pencil [data-bar-field]').fill(text);
};

const strip = ({ page }: Tablet) => page.locator('.strip[data-strip="locked"]');

describe('the gig lock', () => {
  it('makes every book and pencil read-only; what was typed before stays, and is merged when it ends', async () => {
    const { leader, sax, guitar, link, stands } = band;
    await callTune(band, 'Slow Ferry');
    for (const stand of stands) {
      await goTo(stand, 'Pencil');
      await stand.page.locator('.pencil [data-bar-id]').nth(4).waitFor();
    }
    link.cut();
    await type(sax, 4, 'Ab13');
    await sax.page.locator('.pencil [data-bar-field]').press('Enter');
    await sax.page.locator('.pencil-saved[data-saved="kept"]').waitFor();
    // Bea is in the middle of a bar.
    await type(guitar, 5, 'A13');

    await leader.page.getByRole('button', { name: /^leads/ }).click();
    await leader.page.getByRole('button', { name: 'Lock the book for the gig' }).click();
    await strip(guitar).waitFor();
    await guitar.page.locator('.pencil [data-bar-field]').waitFor({ state: 'detached' });
    expect(await guitar.page.locator('.pencil .tool').count()).toBe(0);
    await openBar(guitar, 6);
    expect(await guitar.page.locator('.pencil [data-bar-field]').count()).toBe(0);
    expect(await symbols(guitar)()).toContain('A13');
    await guitar.page.locator('.pencil-saved[data-saved="kept"]').waitFor();

    link.mend();
    await strip(sax).waitFor();
    await sax.page.locator('.pencil-saved[data-saved="kept"]').waitFor();
    expect(await symbols(guitar)()).not.toContain('Ab13');
    expect(await symbols(sax)()).not.toContain('A13');
    await leader.page.getByRole('button', { name: 'Close' }).click();
    await goTo(leader, 'Book');
    await strip(leader).waitFor();
    expect(await leader.page.getByRole('link', { name: 'Add a chart' }).count()).toBe(0);

    await goTo(leader, 'Podium');
    await leader.page.getByRole('button', { name: /^leads/ }).click();
    await leader.page.getByRole('button', { name: /unlock it/ }).click();
    for (const stand of stands) {
      await strip(stand).waitFor({ state: 'detached' });
      await expect.poll(symbols(stand), { timeout: 20_000 }).toEqual(expect.arrayContaining(['Ab13', 'A13']));
      await stand.page.locator('.pencil-saved[data-saved="saved"]').waitFor();
    }
  });
});
