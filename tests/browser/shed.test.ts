import { readFileSync } from 'node:fs';
import AxeBuilder from '@axe-core/playwright';
import { parseMidi } from 'midi-file';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { CLICK_EVERY_MS, TAPS_WANTED } from '../../common/rehearsal/lateness.ts';
import { type Band, callTune, sitDown } from '../support/band.ts';
import { goTo, PORTRAIT } from '../support/tablets.ts';

let band: Band;

beforeAll(async () => {
  band = await sitDown(inject('chromium'));
  await callTune(band, 'Slow Ferry');
  await goTo(band.guitar, 'Shed');
  await band.guitar.page.locator('.studied .fret-diagram').first().waitFor();
});
afterAll(() => band?.goHome());

const shapes = (page: Page): Promise<(string | null)[]> =>
  page
    .locator('.studied-own .fret-diagram')
    .evaluateAll((all) => all.map((one) => one.getAttribute('aria-label')));

const room = (page: Page, name: string) =>
  page.locator('.shed-rooms').getByRole('button', { name, exact: true });

const barNow = (page: Page): Promise<number> =>
  page.evaluate(
    () => Number(document.querySelector<HTMLElement>('.roll [data-now]')?.dataset['bar'] ?? -1) + 1,
  );

describe('the Shed', () => {
  it('says under each bar what the chord does and why, and where one gets lost', async () => {
    const { page } = band.guitar;
    const bars = page.locator('.studied').first().locator('.bar');
    expect(await bars.count()).toBe(16);
    // A blues: I7, IV7 as they are (common practice, no source).
    await expect.poll(() => bars.nth(0).textContent()).toMatch(/I7.*home of the blues/s);
    await expect.poll(() => bars.nth(4).textContent()).toMatch(/IV7/);
    await expect.poll(() => page.locator('.guide-row').count()).toBeGreaterThan(0);
    await expect.poll(() => page.locator('.studied-lost li').count()).toBeGreaterThan(2);
  });

  it('says why under each chord, once, and calls notes as the player does', async () => {
    const { page } = band.guitar;
    const reasons = page.locator('.studied-reasons p');
    const call = async (names: RegExp) => {
      await page.getByRole('button', { name: 'You' }).click();
      await page.getByRole('radio', { name: names }).check();
      await page.keyboard.press('Escape');
    };
    await call(/Do Si.*Si/);
    await expect.poll(async () => (await reasons.allTextContents()).join('; ')).toMatch(/Mi♭|La♭|Si♭/);
    const sung = [
      ...(await reasons.allTextContents()),
      ...(await page.locator('.studied-lost li').allTextContents()),
    ];
    // A letter that is a note's name in English, with what follows it in a chord.
    expect(sung.filter((words) => /(^|[\s/])[A-G][♭♯m°ø△\d]/u.test(words))).toEqual([]);
    await call(/C B.*B/);
    await expect.poll(async () => (await reasons.allTextContents()).join('; ')).toMatch(/E♭|A♭|B♭/);
    const offPx = await page.locator('.studied-line .bar').evaluateAll((bars) =>
      bars.flatMap((bar) => {
        const lefts = [...(bar.querySelectorAll('.help-row')[0]?.querySelectorAll('.help-cell') ?? [])].map(
          (cell) => cell.getBoundingClientRect().left,
        );
        return [...bar.querySelectorAll('.studied-reasons p')].map((one) =>
          Math.min(...lefts.map((left) => Math.abs(left - one.getBoundingClientRect().left))),
        );
      }),
    );
    expect(Math.max(...offPx)).toBeLessThan(2);
    // The second of two bars with the same chord does not say it again.
    const inLine = await page
      .locator('.studied-line')
      .evaluateAll((lines) =>
        lines.map((line) => [...line.querySelectorAll('.studied-reasons p')].map((one) => one.textContent)),
      );
    for (const said of inLine) {
      expect(
        said.filter((words, at) => at > 0 && words === said[at - 1] && /home of the blues/.test(words ?? '')),
      ).toEqual([]);
    }
  });

  it('is printed whole: nothing beyond the edge of the paper, no keys, black on white', async () => {
    const { page } = band.guitar;
    const screen = page.viewportSize() ?? PORTRAIT;
    await page.emulateMedia({ media: 'print' });
    // A4 within its margins, at 96 to the inch.
    await page.setViewportSize({ width: 688, height: 971 });
    const beyond = await page
      .locator('.studied, .studied *, .studied-lost *')
      .evaluateAll((all) =>
        all
          .filter((one) => one.checkVisibility() && one.getBoundingClientRect().right > window.innerWidth + 1)
          .map((one) => one.outerHTML.slice(0, 80)),
      );
    expect(beyond).toEqual([]);
    for (const hidden of ['.rail', '.shed-rooms', '.shed-head .button']) {
      expect(await page.locator(hidden).first().isVisible(), hidden).toBe(false);
    }
    expect(
      await page
        .locator('.studied')
        .first()
        .evaluate((one) => getComputedStyle(one).color),
    ).toBe('rgb(0, 0, 0)');
    // The whole of it goes on as long as the paper does: nothing scrolls.
    expect(
      await page.locator('main.shed').evaluate((main) => main.scrollHeight - main.clientHeight),
    ).toBeLessThanOrEqual(1);
    await page.emulateMedia({ media: null });
    await page.setViewportSize(screen);
  });

  it('lets a player pin a shape; the rest finds its way, here and on the Stand, and it is let go again', async () => {
    const { page } = band.guitar;
    const before = await shapes(page);
    await page.locator('.pin-key').nth(4).click();
    const offer = page.locator('.shape-offer').last();
    const wanted = await offer.locator('.fret-diagram').getAttribute('aria-label');
    await offer.click();
    await expect.poll(async () => (await shapes(page))[4]).toBe(wanted);
    expect(wanted).not.toBe(before[4]);
    await goTo(band.guitar, 'Stand');
    await expect
      .poll(() =>
        page
          .locator('.roll .fret-diagram')
          .evaluateAll((all) => all.map((one) => one.getAttribute('aria-label'))),
      )
      .toContain(wanted);
    await goTo(band.guitar, 'Shed');
    await page.locator('.pin-key').nth(4).click();
    await page.getByRole('button', { name: 'Let it go' }).click();
    await expect.poll(() => shapes(page)).toEqual(before);
  });

  it('plays alone by its own clock: the band’s stage stays where it is', async () => {
    const { page } = band.guitar;
    await room(page, 'Lead').click();
    await page.locator('.pad-key[data-key-id="start"]').click();
    await room(page, 'Read').click();
    await expect.poll(() => barNow(page), { timeout: 20_000 }).toBeGreaterThan(0);
    await room(page, 'Lead').click();
    await page.locator('.pad-key[data-key-id="lastChorus"]').click();
    await page.getByRole('button', { name: 'take back' }).first().waitFor();
    expect(await band.sax.page.locator('main.stand').getAttribute('data-state')).toBe('waiting');
  });

  it('plays on where the player changes name or instrument, and where the page is loaded anew', async () => {
    const { page } = band.guitar;
    await room(page, 'Read').click();
    await expect.poll(() => barNow(page)).toBeGreaterThan(1);
    const takeOnTop = () => page.locator('.roll [data-now]').getAttribute('data-bar-id');
    const before = await barNow(page);
    await page.getByRole('button', { name: 'You' }).click();
    await page.getByLabel(/your name/i).fill('Ines the second');
    await page.getByLabel(/what you play/i).selectOption({ label: 'Piano' });
    await page.keyboard.press('Escape');
    await page.locator('.roll .keyboard').first().waitFor();
    expect(await barNow(page)).toBeGreaterThanOrEqual(before);
    expect(await takeOnTop()).not.toBeNull();
    await page.getByRole('button', { name: 'You' }).click();
    await page.getByLabel(/your name/i).fill('Ines');
    await page.getByLabel(/what you play/i).selectOption({ label: 'Guitar' });
    await page.keyboard.press('Escape');
    const last = await barNow(page);
    await page.reload();
    await page.locator('.shed-rooms').waitFor();
    expect(await room(page, 'Read').getAttribute('aria-current')).toBe('page');
    await expect.poll(() => barNow(page)).toBeGreaterThanOrEqual(last);
    expect(await page.locator('.shed-frame > .strip').count()).toBe(0);
    // Whoever goes to another page begins anew.
    await goTo(band.guitar, 'Book');
    await page.locator('main.book').waitFor();
    await goTo(band.guitar, 'Shed');
    await page.locator('.studied').first().waitFor();
    await room(page, 'Read').click();
    await page.locator('main.stand[data-state="waiting"]').waitFor();
  });

  it('makes the practice band heard from a touch, with a limiter in the chain and a low level at first', async () => {
    const { page } = band.guitar;
    await page.locator('.shed-sound').click();
    await expect
      .poll(() => page.locator('.shed-sound').textContent(), { timeout: 60_000 })
      .toBe('switch sound off');
    await room(page, 'Band').click();
    expect(await page.getByLabel('All').inputValue()).toBe('0.3');
    await page.getByLabel('leave me out').check();
    expect(await page.getByRole('button', { name: 'Chords silent' }).getAttribute('aria-pressed')).toBe(
      'true',
    );
    await page.getByLabel('in counts').fill('1 7&');
    await page.locator('.shed-band .field-problem').waitFor();
    await page.getByLabel('in counts').fill('1 2&');
    await expect.poll(() => page.locator('.shed-band .field-problem').count()).toBe(0);
    expect(await page.getByLabel('Rhythm of the chords').locator('option:checked').textContent()).toBe(
      'Charleston',
    );
    await page.getByLabel('two bars').check();
    await page.getByRole('button', { name: 'bar 2, 4', exact: true }).click();
    expect(await page.getByLabel('in counts').inputValue()).toBe('1 2& | 1 2& 4');
    // A browser gives no sound to a page that nobody has touched.
    await page.reload();
    await page.locator('.shed-frame > .strip').getByText('touch “switch sound on”').waitFor();
    expect(await room(page, 'Band').getAttribute('aria-current')).toBe('page');
    await page.locator('.shed-sound').click();
    await expect
      .poll(() => page.locator('.shed-sound').textContent(), { timeout: 60_000 })
      .toBe('switch sound off');
    expect(await page.locator('.shed-frame > .strip').count()).toBe(0);
    await page.locator('.shed-sound').click();
    await expect.poll(() => page.locator('.shed-sound').textContent()).toBe('switch sound on');
  });

  it('finds by taps how late the sound is heard, and plays that much earlier', async () => {
    const { page } = band.guitar;
    await room(page, 'Band').click();
    const late = page.getByLabel('Heard late by');
    expect(await late.inputValue()).toBe('0');
    await page.getByRole('button', { name: 'Tap along the click' }).click();
    const earlier = page.getByRole('button', { name: /ms earlier/ });
    const anew = page.getByRole('button', { name: 'Tap anew' });
    // Where between two clicks these taps come is chance, and a busy machine presses unevenly: then they are tapped anew.
    for (let tries = 0; tries < 4 && !(await earlier.isVisible()); tries++) {
      if (await anew.isVisible()) {
        await anew.click();
        await page.waitForTimeout(CLICK_EVERY_MS / 3);
      }
      const fromMs = performance.now();
      for (let taps = 0; taps < TAPS_WANTED; taps++) {
        await page.keyboard.press('Space');
        await page.waitForTimeout(Math.max(0, fromMs + (taps + 1) * CLICK_EVERY_MS - performance.now()));
      }
    }
    const words = (await earlier.textContent()) ?? '';
    await earlier.click();
    expect(await late.inputValue()).toBe(/-?\d+/.exec(words)?.[0]);
    await late.fill('0');
  });

  it('lets one player hear a click on stage, which goes on while the settings are closed', async () => {
    const { page } = band.sax;
    const dot = page.getByRole('button', { name: /settings of this stand/i });
    const key = page.locator('[data-setting="earClick"]');
    await dot.click();
    await key.click();
    await expect.poll(() => key.getAttribute('aria-busy'), { timeout: 60_000 }).toBe('false');
    // What it is called never changes together with whether it is pressed.
    expect(await key.textContent()).toBe('click in my ear');
    expect(await key.getAttribute('aria-pressed')).toBe('true');
    await page.keyboard.press('Escape');
    await key.waitFor({ state: 'hidden' });
    await dot.click();
    expect(await key.getAttribute('aria-pressed')).toBe('true');
    await key.click();
    await expect.poll(() => key.getAttribute('aria-pressed')).toBe('false');
    await page.keyboard.press('Escape');
  });

  it('saves the tune as a MIDI file', async () => {
    const { page } = band.guitar;
    await room(page, 'Band').click();
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save as a MIDI file' }).click(),
    ]);
    expect(download.suggestedFilename()).toBe('Slow Ferry.mid');
    const bytes = readFileSync(await download.path());
    const { header, tracks } = parseMidi(bytes);
    expect(header.format).toBe(1);
    // Head twice, solos once, head out: 16 bars each, and a tag of 3 times 4 bars.
    const notes = tracks.flatMap((track) => track.filter(({ type }) => type === 'noteOn'));
    expect(notes.length).toBeGreaterThan(16 * 4 * 4);
  });

  it('has nothing that axe finds serious, and throws nothing', async () => {
    const { page, errors } = band.guitar;
    for (const name of ['Study', 'Read', 'Lead', 'Band']) {
      await room(page, name).click();
      const { violations } = await new AxeBuilder({ page }).analyze();
      const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical');
      expect(serious.map(({ id, nodes }) => `${name}: ${id} ${nodes[0]?.html}`)).toEqual([]);
    }
    expect(errors).toEqual([]);
  });
});
