import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { allAre, type Band, callTune, countInFrom, flag, sitDown } from '../support/band.ts';
import { sampleBars } from '../support/same-bar.ts';
import { goTo, type Tablet } from '../support/tablets.ts';

let band: Band;

beforeAll(async () => {
  band = await sitDown(inject('chromium'));
});
afterAll(() => band?.goHome());

/** Touches a bar of the pencil, counted from 0, and types into it. */
const typeBar = async ({ page }: Tablet, bar: number, text: string): Promise<void> => {
  await page.locator('.pencil [data-bar-id]').nth(bar).locator('[data-bar-key]').click();
  await page.locator('.pencil [data-bar-field]').fill(text);
  await page.locator('.pencil [data-bar-field]').press('Enter');
};

const ribbonBars = ({ page }: Tablet) => page.locator('.ribbon > *').count();

describe('a band edits a chart together', () => {
  it('sees an edit on the other stand, in the key of who reads it', async () => {
    const { guitar, sax } = band;
    await callTune(band, 'Slow Ferry');
    await goTo(guitar, 'Pencil');
    await typeBar(guitar, 0, 'Eb9');
    await expect
      .poll(() => sax.page.locator('.roll [data-symbol]').first().getAttribute('data-symbol'))
      .toBe('F9');
  });

  it('merges what was typed on a tablet while it was cut off', async () => {
    const { guitar, sax, link, stands } = band;
    await callTune(band, 'Slow Ferry');
    for (const stand of stands) {
      await goTo(stand, 'Pencil');
      await stand.page.locator('.pencil [data-bar-id]').nth(4).waitFor();
    }
    link.cut();
    await typeBar(sax, 4, 'Ab13');
    await typeBar(guitar, 5, 'A13');
    await sax.page.locator('.pencil-saved[data-saved="kept"]').waitFor();
    link.mend();
    for (const { page } of stands) {
      const typed = () =>
        page
          .locator('.pencil [data-symbol]')
          .evaluateAll((all) => all.map((one) => one.getAttribute('data-symbol')));
      await expect.poll(typed, { timeout: 20_000 }).toEqual(expect.arrayContaining(['Ab13', 'A13']));
    }
  });

  it('takes a new arrangement with one touch while it plays, and it lands at the top', async () => {
    const { guitar, sax, stands } = band;
    await callTune(band, 'Ropewalk');
    await countInFrom(band, 'Solos', 1);
    expect(await ribbonBars(guitar)).toBe(12);
    await goTo(sax, 'Pencil');
    await sax.page.locator('.pencil [data-bar-key]').last().click();
    await sax.page.locator('.tool', { hasText: 'bar after' }).click();
    await sax.page.locator('.pencil [data-bar-field]').fill('F7');
    await sax.page.keyboard.press('Enter');
    await goTo(sax, 'Stand');
    const ready = band.leader.page.locator('.offer [data-key-id="takeRoad"]');
    await ready.waitFor();
    // Nobody's place moves because somebody inserted a bar.
    expect(await ribbonBars(guitar)).toBe(12);
    await allAre(band, 'playing');
    await ready.click();
    await Promise.all(stands.map((stand) => flag(stand, 'adopt').waitFor()));
    const passOf = () => guitar.page.locator('[data-now]').getAttribute('data-pass');
    const before = await passOf();
    await expect.poll(() => ribbonBars(guitar), { timeout: 30_000 }).toBe(13);
    expect(await passOf()).not.toBe(before);
    expect(await guitar.page.locator('[data-now]').getAttribute('data-bar')).toBe('0');
    const { astray, taken } = await sampleBars(stands, 30);
    expect(astray.length / taken, astray.join('; ')).toBeLessThanOrEqual(0.01);
  });

  it('warns of a half-done arrangement, and takes one that was taken back where the chart is as before', async () => {
    const { guitar, sax, leader } = band;
    await callTune(band, 'Ropewalk');
    await countInFrom(band, 'Solos', 1);
    await goTo(sax, 'Pencil');
    const leg = await guitar.page.locator('[data-now]').getAttribute('data-leg');
    await sax.page.getByRole('button', { name: 'delete section A' }).click();
    const offer = leader.page.locator('.offer');
    await expect
      .poll(() => offer.textContent())
      .toMatch(/^New arrangement without Solos: .* · \d+ to look at/);
    await offer.getByRole('button', { name: 'take it at the top' }).click();
    await flag(guitar, 'adopt').waitFor();
    await sax.page.getByRole('button', { name: 'undo mine' }).click();
    await expect.poll(() => offer.textContent()).toMatch(/as it is played|Changed since it was taken/);
    await expect.poll(() => flag(guitar, 'adopt').count()).toBe(0);
    expect(await guitar.page.locator('[data-now]').getAttribute('data-leg')).toBe(leg);
    expect(await guitar.page.locator('main.stand').getAttribute('data-state')).toBe('playing');
  });
});
