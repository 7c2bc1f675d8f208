import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { type Band, callTune, countInFrom, sitDown } from '../support/band.ts';

let band: Band;

beforeAll(async () => {
  band = await sitDown(inject('chromium'));
});
afterAll(() => band?.goHome());

/** What stands under the chords of the line being played or, while the tune waits, of the first one. */
const under = (page: Page): Promise<string[]> =>
  page
    .locator('.roll .line:is([data-role="now"], [data-role="next"]) .help-cell')
    .evaluateAll((cells) =>
      cells.map(
        (cell) => cell.querySelector('svg[aria-label]')?.getAttribute('aria-label') ?? cell.textContent ?? '',
      ),
    );

const choose = async (page: Page, setting: string, value: string): Promise<void> => {
  await page
    .getByRole('button', { name: /settings of this stand/i })
    .first()
    .click();
  await page.locator(`.stand-panel select[data-setting="${setting}"]`).selectOption(value);
  await page.getByRole('button', { name: 'close' }).click();
};

describe('what each player needs stands under the chords', () => {
  it('is what is usual for the part: shapes for the guitar, guide tones for the tenor in its own key', async () => {
    await callTune(band, 'Slow Ferry');
    // E flat 7 as a shell: root, third and seventh, the root on the A string (common practice, no source).
    await expect.poll(async () => (await under(band.guitar.page))[0]).toMatch(/root on the A string/);
    // The third and the seventh of F7, which the tenor reads for E flat 7.
    await expect.poll(async () => (await under(band.sax.page))[0]).toMatch(/E.*♭.*A/s);
  });

  it('is changed on the stand at any time', async () => {
    const { page } = band.guitar;
    await choose(page, 'help', 'numerals');
    await expect.poll(async () => (await under(page))[0]).toContain('I7');
    await choose(page, 'help', 'chords');
    await expect.poll(() => under(page)).toEqual([]);
    await choose(page, 'help', 'shapes');
    await expect.poll(async () => (await under(page)).length).toBeGreaterThan(3);
  });

  it('goes along when the band goes up a half step', async () => {
    const { guitar, sax, leader } = band;
    await callTune(band, 'Ropewalk');
    await countInFrom(band, 'Solos', 9);
    const before = (await under(guitar.page))[0];
    await leader.page.evaluate(() => window.tillcue?.board.call({ kind: 'up' }));
    await expect
      .poll(() => guitar.page.locator('.stand-key').textContent(), { timeout: 30_000 })
      .toMatch(/G♭ blues/);
    // From the top on in G flat, F before: the shape is another, and so are the guide tones of the tenor's A flat 7.
    await expect.poll(async () => (await under(guitar.page))[0]).not.toBe(before);
    await expect.poll(async () => (await under(sax.page))[0]).toMatch(/G\s*♭|C/);
  });
});
