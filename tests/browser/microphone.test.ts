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
  // A microphone of the browser's own that beeps once a second.
  browser = await openBrowser(inject('chromium'), [
    '--use-fake-device-for-media-stream',
    '--use-fake-ui-for-media-stream',
  ]);
  tablet = await join(browser, relay.link('player'), { name: 'Bea', instrument: 'Guitar' });
});
afterAll(async () => {
  await browser?.close();
  await relay?.remove();
});

describe('the microphone of the cue drill', () => {
  it('hears playing and silence, sends nothing, and is let go when the drill stops', async () => {
    const { page, errors } = tablet;
    const sent: string[] = [];
    page.on('request', (request) => {
      if (request.method() !== 'GET') sent.push(request.url());
    });
    await goTo(tablet, 'Book');
    await page.getByText('Ropewalk').first().click();
    await page.getByRole('link', { name: 'Practise' }).click();
    await page.locator('.shed-rooms').getByRole('button', { name: 'Drill', exact: true }).click();
    await page.getByLabel(/microphone hears/).check();
    await page.locator('.drill-level').waitFor();
    const level = page.locator('.drill-level i');
    const isPlaying = () => level.evaluate((one) => one.hasAttribute('data-playing'));
    await expect.poll(isPlaying, { interval: 20 }).toBe(true);
    await expect.poll(isPlaying, { interval: 20 }).toBe(false);
    await page.getByRole('button', { name: 'Begin' }).click();
    await page.locator('.drill-count').filter({ hasText: 'microphone on' }).waitFor();
    await page.getByRole('button', { name: 'Stop' }).click();
    await page.locator('.shed-drill').waitFor();
    expect(await page.getByLabel(/microphone hears/).isChecked()).toBe(false);
    expect(await page.locator('.drill-level').count()).toBe(0);
    expect(sent).toEqual([]);
    expect(errors).toEqual([]);
  });
});
