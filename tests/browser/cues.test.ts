import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { type Band, callTune, countInFrom, flag, padKey, sitDown } from '../support/band.ts';

let band: Band;

beforeAll(async () => {
  band = await sitDown(inject('chromium'));
});
afterAll(() => band?.goHome());

/** Names of the keys to take something back that are not under the finger at their centre and at each corner. */
const outOfReach = (): Promise<readonly string[]> =>
  band.leader.page.locator('.take-back').evaluateAll((keys) =>
    keys
      .filter((key) => {
        const { left, right, top, bottom } = key.getBoundingClientRect();
        const corners = [left + 2, right - 2].flatMap((x) =>
          [top + 2, bottom - 2].map((y) => [x, y] as const),
        );
        return [[(left + right) / 2, (top + bottom) / 2] as const, ...corners].some(
          ([x, y]) => !key.contains(document.elementFromPoint(x, y)),
        );
      })
      .map((key) => key.ariaLabel ?? ''),
  );

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

  it('a take-back key is under the finger all over, and so is a bar where it is seen', async () => {
    const { page } = band.leader;
    await callTune(band, 'Ropewalk');
    await countInFrom(band, 'Solos', 1);
    const cues = [{ kind: 'lastChorus' }, { kind: 'up' }, { kind: 'break', bars: 1, at: 'pass' }] as const;
    for (const cue of cues) await page.evaluate((one) => window.tillcue?.board.call(one), cue);
    await expect.poll(() => page.locator('.take-back').count()).toBe(cues.length);
    expect(await outOfReach()).toEqual([]);
    const next = page.locator('.podium-roll .line[data-role="next"] .bar').nth(1);
    await next.click({ position: { x: 60, y: 20 } });
    await page.locator('.podium-roll .line .bar[data-pointed]').waitFor();
    const key = page.getByRole('button', { name: /^take back Up/ });
    await key.click({ position: { x: 6, y: 6 } });
    await key.waitFor({ state: 'detached' });
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
