import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { allAre, type Band, callTune, countInFrom, flag, padKey, sitDown } from '../support/band.ts';
import { sampleBars } from '../support/same-bar.ts';
import { goTo, LANDSCAPE, PHONE, type Tablet } from '../support/tablets.ts';

let band: Band;

beforeAll(async () => {
  band = await sitDown(inject('chromium'));
});
afterAll(() => band?.goHome());

const screen = (name: string) =>
  band.leader.page.locator('.page-keys').getByRole('button', { name, exact: true }).click();

const inForce = ({ page }: Tablet, kind: string) => page.locator(`.stand [data-in-force="${kind}"]`);

const together = async (): Promise<void> => {
  const { astray, taken } = await sampleBars(band.stands, 30);
  expect(astray.length / taken, astray.join('; ')).toBeLessThanOrEqual(0.01);
};

describe('a leader', () => {
  it('lets the band trade fours, and every stand says whose turn it is and who is next', async () => {
    const { leader, stands } = band;
    await callTune(band, 'Ropewalk');
    await countInFrom(band, 'Solos', 9);
    await screen('Solos');
    const names = leader.page.locator('.solo-name');
    await names.filter({ hasText: 'Tomas' }).click();
    await names.filter({ hasText: 'drums' }).click();
    await padKey(band, 'tradeFours').click();
    await Promise.all(stands.map((stand) => flag(stand, 'trade').first().waitFor()));
    await Promise.all(stands.map((stand) => inForce(stand, 'turn').waitFor({ timeout: 30_000 })));
    for (const stand of stands) {
      await inForce(stand, 'turn')
        .filter({ hasText: /^Tomas.*drums in 4 bars/ })
        .waitFor();
      await inForce(stand, 'turn')
        .filter({ hasText: /^drums.*Tomas/ })
        .waitFor();
    }
    await together();
    // On a phone what finds no room is left out whole.
    const { page } = stands[0] as Tablet;
    await page.setViewportSize(PHONE);
    const cut = await page.locator('.stand .place-row').evaluate((row) => {
      const { right, bottom } = row.getBoundingClientRect();
      const parts = [...row.children].map(
        (part) => [part.textContent, part.getBoundingClientRect()] as const,
      );
      return parts
        .filter(([, part]) => part.right > right + 1 || (part.top < bottom - 1 && part.bottom > bottom + 1))
        .map(([words]) => words);
    });
    expect(cut).toEqual([]);
    await page.setViewportSize(LANDSCAPE);
    await screen('Form');
  });

  it('holds the last chord of a bar for as long as it takes, and releases it', async () => {
    const { stands, sax } = band;
    await callTune(band, 'Ropewalk');
    await countInFrom(band, 'Solos', 1);
    await padKey(band, 'hold').click();
    await allAre(band, 'held');
    const heldFlag = sax.page.locator('.stand .flags[data-held] > .flag', { hasText: 'Held' });
    await heldFlag.waitFor();
    const barOf = ({ page }: Tablet) => page.locator('[data-now]').getAttribute('data-bar');
    const held = await Promise.all(stands.map(barOf));
    expect(new Set(held).size).toBe(1);
    await band.leader.page.waitForTimeout(3000);
    expect(await Promise.all(stands.map(barOf))).toEqual(held);
    // Who comes late reads it as well, whatever else was called.
    await padKey(band, 'stopTime').click();
    await sax.page.reload();
    await heldFlag.waitFor();
    await padKey(band, 'hold').click();
    await allAre(band, 'playing');
    await heldFlag.waitFor({ state: 'detached' });
    await expect.poll(() => barOf(stands[0] as Tablet)).toBe(String(Number(held[0]) + 1));
    await together();
  });

  it('loops two bars that were touched, counted in each time, until it is called off', async () => {
    const { leader, stands, sax } = band;
    await callTune(band, 'Ropewalk');
    await countInFrom(band, 'Solos', 1);
    await screen('Spot');
    const bars = leader.page.locator('.bar-choice');
    await bars.getByRole('button', { name: 'bar 3', exact: true }).click();
    await bars.getByRole('button', { name: 'bar 4', exact: true }).click();
    await leader.page.locator('.spot-panel').getByRole('button', { name: 'count in', exact: true }).click();
    await leader.page.locator('[data-key-id="loopSpot"]').click();
    await Promise.all(stands.map(({ page }) => page.locator('.spot').waitFor({ timeout: 30_000 })));
    expect(await sax.page.locator('.spot .bar').count()).toBe(2);
    await inForce(sax, 'spot').filter({ hasText: 'round 2' }).waitFor({ timeout: 30_000 });
    await allAre(band, 'count');
    await allAre(band, 'playing');
    await together();
    await leader.page.locator('.spot-keys [data-key-id="loopOff"]').click();
    await Promise.all(
      stands.map(({ page }) => page.locator('.spot').waitFor({ state: 'detached', timeout: 30_000 })),
    );
    await together();
    await screen('Form');
  });

  it('takes the band up a half step, and each instrument reads its own new key from the top on', async () => {
    const { sax, guitar, stands } = band;
    await callTune(band, 'Ropewalk');
    await countInFrom(band, 'Solos', 9);
    await screen('Feel');
    await padKey(band, 'up').click();
    await Promise.all(stands.map((stand) => flag(stand, 'up').waitFor()));
    const keyOf = ({ page }: Tablet) => page.locator('.stand-key').textContent();
    expect(await keyOf(guitar)).toMatch(/F blues/);
    await expect.poll(() => keyOf(guitar), { timeout: 30_000 }).toMatch(/G♭ blues/);
    // A tenor reads a whole step above G♭: A♭, four flats.
    await expect.poll(() => keyOf(sax)).toMatch(/tenor sax in.*A♭/);
    const reads = ({ page }: Tablet, chord: RegExp) =>
      expect
        .poll(() => page.locator('.roll [role="img"]').evaluateAll((all) => all.map((one) => one.ariaLabel)))
        .toContainEqual(expect.stringMatching(chord));
    await reads(guitar, /^G flat/i);
    await reads(sax, /^A flat/i);
    await screen('Form');
  });

  it('binds a key of a pedal to the last chorus, and the pedal calls it', async () => {
    const { leader, stands } = band;
    await callTune(band, 'Ropewalk');
    await countInFrom(band, 'Solos', 1);
    await leader.page.getByRole('button', { name: 'set up', exact: true }).click();
    await leader.page.getByRole('button', { name: /pedals/i }).click();
    await leader.page.getByRole('button', { name: 'bind Last chorus, or go on' }).click();
    await leader.page.keyboard.press('PageDown');
    await leader.page.locator('[data-action="lastChorus"] .pedal-bound button').waitFor();
    await leader.page.keyboard.press('Escape');
    await leader.page.keyboard.press('PageDown');
    await Promise.all(stands.map((stand) => flag(stand, 'lastChorus').waitFor()));
    // Bound on this tablet, it works beside the stand as well.
    await goTo(leader, 'Stand');
    await leader.page.locator('.stand .flag[data-kind="lastChorus"]').waitFor();
  });
});
