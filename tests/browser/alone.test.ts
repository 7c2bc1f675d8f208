import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { type RelayProcess, relayProcess } from '../support/relay-process.ts';
import { goTo, join, openBrowser, type Tablet } from '../support/tablets.ts';

let relay: RelayProcess;
let browser: Browser;
let tablet: Tablet;

beforeAll(async () => {
  relay = await relayProcess();
  await relay.start();
  browser = await openBrowser(inject('chromium'));
  tablet = await join(browser, relay.link('player'), { name: 'Ines', instrument: 'Guitar' });
});
afterAll(async () => {
  await browser?.close();
  await relay?.remove();
});

const barNow = ({ page }: Tablet): Promise<number> =>
  page.evaluate(
    () => Number(document.querySelector<HTMLElement>('.roll [data-now]')?.dataset['bar'] ?? -1) + 1,
  );

describe('a player alone', () => {
  it('duplicates a chart that this tablet has never opened, whole', async () => {
    const { page } = tablet;
    await goTo(tablet, 'Book');
    const row = (title: string) =>
      page.locator('.chart-row', { has: page.getByText(title, { exact: true }) });
    await row('Low Water').locator('.chart-row-head').click();
    await page.getByRole('button', { name: 'Duplicate' }).click();
    await row('Low Water (2)').waitFor();
    for (const part of ['.chart-key', '.chart-tempo']) {
      expect(await row('Low Water (2)').locator(part).textContent()).toBe(
        await row('Low Water').locator(part).textContent(),
      );
    }
    await row('Low Water (2)').locator('.chart-row-head').click();
  });

  it('without the relay goes from the stand to the Shed, counts in, hears the band and goes on', async () => {
    const { page, errors } = tablet;
    await goTo(tablet, 'Book');
    await page.getByText('Ropewalk').first().click();
    await page.getByRole('link', { name: 'On my stand' }).click();
    await page.getByRole('heading', { name: 'Ropewalk' }).first().waitFor();
    // The page fetches what is not on the screen yet; then the relay goes away for good.
    const fetched = () =>
      page.evaluate(() => {
        const names = performance.getEntriesByType('resource').map(({ name }) => name);
        return ['/shed-', '/help-worker-', '/render-one-shots-'].every((part) =>
          names.some((name) => name.includes(part)),
        );
      });
    await expect.poll(fetched, { timeout: 30_000 }).toBe(true);
    await relay.stop('SIGKILL');
    await goTo(tablet, 'Shed');
    const room = (name: string) => page.locator('.shed-rooms').getByRole('button', { name, exact: true });
    await page.locator('.studied .fret-diagram').first().waitFor();
    await page.locator('.shed-sound').click();
    await expect
      .poll(() => page.locator('.shed-sound').textContent(), { timeout: 60_000 })
      .toBe('switch sound off');
    await room('Lead').click();
    await page.locator('.pad-key[data-key-id="start"]').click();
    await room('Read').click();
    await expect.poll(() => barNow(tablet), { timeout: 20_000 }).toBeGreaterThan(1);
    expect(errors).toEqual([]);
  });
});
