import AxeBuilder from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { type Band, callTune, sitDown } from '../support/band.ts';
import { seededRandom } from '../support/seeded-random.ts';
import { goTo } from '../support/tablets.ts';

let band: Band;

/** The dice fall alike in every run: one that failed can be had again. */
const SEED = 11;
/** Cues come when the dice say so. */
const LONG_MS = 300_000;

beforeAll(async () => {
  band = await sitDown(inject('chromium'));
  await callTune(band, 'Net Menders');
  await openDrill();
});
afterAll(() => band?.goHome());

const diceOf = (seed: number): number[] => {
  const random = seededRandom(seed);
  return Array.from({ length: 1000 }, random);
};

const openDrill = async (): Promise<void> => {
  const { page } = band.guitar;
  await page.evaluate((throws) => {
    let nth = 0;
    Math.random = () => throws[nth++ % throws.length] ?? 0;
  }, diceOf(SEED));
  await goTo(band.guitar, 'Shed');
  await page.locator('.shed-rooms').getByRole('button', { name: 'Drill', exact: true }).click();
  await page.locator('.shed-drill').waitFor();
};

const beginAt = async (page: Page, drill: string, level: string): Promise<void> => {
  await page.locator('.shed-drill').getByRole('button', { name: drill, exact: true }).click();
  await page.getByLabel('Begin at level').selectOption(level);
  await page.getByRole('button', { name: 'Begin' }).click();
  await page.locator('.drill').waitFor();
};

const answers = (page: Page): Promise<number> =>
  page.evaluate(() =>
    Number(/of (\d+) right/.exec(document.querySelector('.drill-count')?.textContent ?? '')?.[1]),
  );

/** What the page asks for now; '' while nothing is. */
const asks = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const words = document.querySelector('.drill-words:not([data-answer])')?.textContent ?? '';
    return /is called/.test(words) ? words : '';
  });

/** Waits until a cue is called, and taps on the frame in which it has landed or the band is in again. */
const answerNext = async (page: Page): Promise<void> => {
  const before = await answers(page);
  await expect.poll(() => asks(page), { timeout: 90_000, interval: 50 }).not.toBe('');
  const isBreak = /break/.test(await asks(page));
  const tapped = page.evaluate((waitsForBand) => {
    const isOut = () => document.querySelector('.roll .bar[data-now]')?.hasAttribute('data-out') === true;
    const isOn = () => document.querySelector('.roll .bar[data-now]') !== null;
    // Ids of cues that were called; those of what is written in the chart look otherwise.
    const landed = () =>
      /\b[0-9a-z]{10}\b/.test(document.querySelector<HTMLElement>('main.stand')?.dataset['landing'] ?? '');
    const press = () =>
      document.body.dispatchEvent(new KeyboardEvent('keydown', { code: 'Space', key: ' ', bubbles: true }));
    return new Promise<void>((done) => {
      let wasOut = false;
      let wasLanded = landed();
      const look = () => {
        wasOut ||= waitsForBand && isOut();
        const due = waitsForBand ? wasOut && isOn() && !isOut() : landed() && !wasLanded;
        wasLanded = landed();
        if (!due) return void requestAnimationFrame(look);
        press();
        done();
      };
      look();
    });
  }, isBreak);
  await tapped;
  await expect.poll(() => answers(page), { timeout: 20_000 }).toBe(before + 1);
};

const missNext = async (page: Page): Promise<void> => {
  const before = await answers(page);
  await expect.poll(() => answers(page), { timeout: 90_000 }).toBe(before + 1);
};

const rightWords = (page: Page): Promise<string | null> =>
  page.locator('.drill-count span').first().textContent();

describe('the drill', () => {
  it(
    '[DRILL-2] [DRILL-14] tells a cue that was answered from one that was missed, and keeps it',
    async () => {
      const { page } = band.guitar;
      await beginAt(page, 'Cues', '8');
      await answerNext(page);
      expect(await rightWords(page)).toBe('1 of 1 right');
      expect(await page.locator('.drill-words').getAttribute('data-answer')).toBe('right');
      await missNext(page);
      expect(await rightWords(page)).toBe('1 of 2 right');
      expect(await page.locator('.drill-words').textContent()).toContain('no tap');
      await page.getByRole('button', { name: 'Stop' }).click();
      await page.getByRole('heading', { name: '1 of 2 right' }).waitFor();
      expect(await page.locator('.drill-table tbody tr').count()).toBeGreaterThan(0);

      await page.reload();
      await openDrill();
      await page.getByRole('button', { name: 'Cues', exact: true }).click();
      const cells = page.locator('.drill-plot table td');
      await expect
        .poll(async () => (await cells.allTextContents()).reduce((sum, words) => sum + Number(words[0]), 0))
        .toBe(1);
      expect(await band.sax.page.locator('main.stand').getAttribute('data-state')).toBe('waiting');
    },
    LONG_MS,
  );

  it(
    '[DRILL-20] [DRILL-23] goes dark, hides where the band is, and is light again with the tap',
    async () => {
      const { page } = band.guitar;
      await beginAt(page, 'Lost spots', '1');
      await page.locator('.drill[data-dark]').waitFor({ timeout: 90_000 });
      const seen = () =>
        page.evaluate(
          () =>
            [
              ...document.querySelectorAll(
                '.drill .stand .bar, .drill .stand-legend, .drill .ribbon, .drill .place-row',
              ),
            ].filter(
              (one) => getComputedStyle(one).visibility !== 'hidden' || one.closest('.drill-dark') !== null,
            ).length,
        );
      expect(await seen()).toBe(0);
      await page.locator('.drill-dark').waitFor();
      await page.locator('.tap-key').click();
      await page.locator('.drill:not([data-dark])').waitFor();
      expect(await seen()).toBeGreaterThan(0);
      expect(await page.locator('.drill-words').textContent()).toMatch(/early|late|on the beat/);
      await page.getByRole('button', { name: 'Stop' }).click();
      await page.locator('.drill-over td', { hasText: 'beat' }).waitFor();
    },
    LONG_MS,
  );

  it('has nothing that axe finds serious, and throws nothing', async () => {
    const { page, errors } = band.guitar;
    const serious = async () => {
      const { violations } = await new AxeBuilder({ page }).analyze();
      return violations
        .filter(({ impact }) => impact === 'serious' || impact === 'critical')
        .map(({ id, nodes }) => `${id} ${nodes[0]?.html}`);
    };
    expect(await serious()).toEqual([]);
    await beginAt(page, 'Cues', '1');
    await page.locator('.drill main.stand[data-state="playing"]').waitFor();
    expect(await serious()).toEqual([]);
    await page.getByRole('button', { name: 'Stop' }).click();
    expect(errors).toEqual([]);
  });
});
