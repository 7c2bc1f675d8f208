import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { allAre, type Band, callTune, countInFrom, flag, padKey, sitDown } from '../support/band.ts';
import { look } from '../support/same-bar.ts';
import { goTo } from '../support/tablets.ts';

let band: Band;

beforeAll(async () => {
  band = await sitDown(inject('chromium'));
});
afterAll(() => band?.goHome());

/** The cues of the take that is on, by kind. */
const called = async (): Promise<readonly string[]> =>
  ((await look(band.leader)).take?.cues ?? []).map(({ cue }) => cue.kind);

describe('the podium', () => {
  it('counts in and loops a spot at one touch, from before the tune begins', async () => {
    const { leader, stands } = band;
    await callTune(band, 'Ropewalk');
    await leader.page.locator('.page-keys').getByRole('button', { name: 'Spot', exact: true }).click();
    const bars = leader.page.locator('.bar-choice');
    await bars.getByRole('button', { name: 'bar 3', exact: true }).click();
    await bars.getByRole('button', { name: 'bar 4', exact: true }).click();
    await leader.page.getByRole('button', { name: 'count in and loop it' }).click();
    await allAre(band, 'playing');
    await Promise.all(stands.map(({ page }) => page.locator('.spot').waitFor()));
    for (const { page } of stands) {
      await page.locator('[data-in-force="spot"]', { hasText: 'bars 3–4 round 1' }).waitFor();
    }
    await leader.page.locator('.page-keys').getByRole('button', { name: 'Form', exact: true }).click();
  });

  it('lends the taps: who has them sees one large key and nothing else to call', async () => {
    const { leader, sax } = band;
    await callTune(band, 'Ropewalk');
    await countInFrom(band, 'Solos', 1);
    await leader.page.getByRole('button', { name: /^leads/ }).click();
    await leader.page.getByRole('button', { name: 'lend the taps: Tomas' }).click();
    await leader.page.keyboard.press('Escape');
    const views = sax.page.getByRole('navigation', { name: 'Views' });
    await views.getByText('Tap', { exact: true }).click();
    expect(await views.getByText('Podium', { exact: true }).count()).toBe(0);
    await sax.page.locator('.tap-screen .tap-key').waitFor();
    expect(await sax.page.locator('.pad-key').count()).toBe(0);
    for (let n = 0; n < 3; n++) {
      await sax.page.locator('.tap-key').dispatchEvent('pointerdown', { button: 0 });
      await sax.page.waitForTimeout(400);
    }
    await expect.poll(async () => (await called()).filter((kind) => kind === 'tap').length).toBe(3);
    await sax.page.getByRole('button', { name: 'give the taps back' }).click();
    await views.getByText('Tap', { exact: true }).waitFor({ state: 'detached' });
    await goTo(sax, 'Stand');
  });

  it('offers what a cue just missed, and one touch moves everyone there', async () => {
    const { leader, stands } = band;
    await callTune(band, 'Slow Ferry');
    await countInFrom(band, 'Solos', 3);
    const phrase = leader.page.locator('.pad-column[data-column="phrase"] h2');
    await phrase.filter({ hasText: 'bar 5, next bar' }).waitFor();
    // Called with the new phrase begun: it would wait for the next one.
    await phrase.filter({ hasText: 'bar 9' }).waitFor();
    await padKey(band, 'break').click();
    await leader.page.locator('[data-key-id="itHappened"]').click();
    await Promise.all(stands.map(({ page }) => page.locator('[data-now][data-out="hit"]').waitFor()));
  });

  it('lists what is called in the order of landing, and taken back by the keyboard the focus goes on', async () => {
    const { leader } = band;
    const { page } = leader;
    await callTune(band, 'Ropewalk');
    await countInFrom(band, 'Solos', 1);
    await padKey(band, 'breakAtTop').click();
    await padKey(band, 'stopTime').click();
    const back = page.locator('.take-back');
    await expect.poll(() => back.count()).toBe(2);
    const names = () => back.evaluateAll((keys) => keys.map((key) => key.getAttribute('aria-label')));
    expect(await names()).toEqual(['take back Stop-time', 'take back Break']);
    const focused = () =>
      page.evaluate(() => {
        const { activeElement: key } = document;
        return key?.getAttribute('aria-label') ?? key?.getAttribute('data-key-id') ?? key?.tagName ?? '';
      });
    await back.first().focus();
    await page.keyboard.press('Enter');
    await expect.poll(() => focused()).toBe('take back Break');
    await page.keyboard.press('Enter');
    await back.first().waitFor({ state: 'detached' });
    await expect.poll(() => focused()).toBe('hold');
  });

  it('a bound key calls nothing while somebody types, and held down it calls once', async () => {
    const { leader, stands } = band;
    const { page } = leader;
    await callTune(band, 'Ropewalk');
    await page.getByRole('button', { name: 'set up', exact: true }).click();
    await page.getByRole('button', { name: /pedals and keys/ }).click();
    await page.getByRole('button', { name: 'bind Bring it down' }).click();
    await page.keyboard.press('b');
    await page.getByRole('button', { name: 'unbind B from Bring it down' }).waitFor();
    await page.getByRole('button', { name: 'bind Build' }).click();
    await page.keyboard.press('b');
    await page.getByText('B does “Bring it down” already.').waitFor();
    await page.getByRole('button', { name: 'leave it' }).click();
    await page.keyboard.press('Escape');
    await countInFrom(band, 'Solos', 1);
    await page.getByRole('button', { name: 'tunes', exact: true }).click();
    await page.getByRole('searchbox').pressSequentially('bb');
    await page.getByRole('button', { name: 'back to the podium' }).click();
    expect(await called()).not.toContain('dynamic');
    await page.keyboard.down('b');
    await page.keyboard.down('b');
    await page.keyboard.up('b');
    await Promise.all(stands.map((stand) => flag(stand, 'dynamic').first().waitFor()));
    expect((await called()).filter((kind) => kind === 'dynamic')).toHaveLength(1);
  });
});
