import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { type Band, callTune, countInFrom, sitDown } from '../support/band.ts';
import { join, PHONE } from '../support/tablets.ts';

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

const play = async (page: Page, instrument: string): Promise<void> => {
  await page.getByRole('button', { name: 'You' }).click();
  await page.getByLabel(/what you play/i).selectOption({ label: instrument });
  await page.keyboard.press('Escape');
};

const CROWDED = `title: Crowded Quay
key: Bb
tempo: 60

[A]
| Bbmaj7 G7 Cm7 F7 | Dm7 G7b9 Cm7 F7 | Fm7 Bb7 Ebmaj7 Ab7 | Dm7 Db7 Cm7 B7 |
| Bb6 | Cm7 F7 | Bb7 / / Bb7/D | Eb6 |
`;

/** By role of the line (`now`, `next`): capital heights under the chords, and how large drawings are beside their own units, px. */
const measured = (page: Page) =>
  page.locator('.roll .line:is([data-role="now"], [data-role="next"])').evaluateAll((lines) =>
    lines.map((line) => {
      const cells = [...line.querySelectorAll<HTMLElement>('.help-cell')];
      const capitals = cells.flatMap((cell) => {
        const scale = cell.getBoundingClientRect().width / cell.offsetWidth;
        const words = [...cell.querySelectorAll<HTMLElement>('.help-voicing, .help-guide, .help-text')].map(
          (one) => Number.parseFloat(getComputedStyle(one).fontSize) * scale,
        );
        const figures = [...cell.querySelectorAll<SVGTextElement>('text')].map(
          (one) => Number.parseFloat(getComputedStyle(one).fontSize) * (one.getScreenCTM()?.a ?? 0),
        );
        return [...words, ...figures].map((size) => size * 0.703);
      });
      const drawings = [...line.querySelectorAll<SVGGraphicsElement>('.fret-diagram g, .fret-diagram line')];
      const keys = [...line.querySelectorAll<SVGGraphicsElement>('.keyboard rect')];
      return {
        capitals,
        scales: [...drawings, ...keys].map((one) => one.getScreenCTM()?.a ?? 0),
        chords: [...line.querySelectorAll<HTMLElement>('.bar-chord')].map(
          (one) => one.getBoundingClientRect().height,
        ),
      };
    }),
  );

describe('in little room', () => {
  it('four chords in a bar have a line of their own on a phone, and capitals of 22 px under them', async () => {
    const { leader, relay, browser } = band;
    await leader.page.evaluate(() => {
      location.hash = `#${encodeURIComponent(window.tillcue?.board.band ?? '')}/add`;
    });
    await leader.page.getByRole('button', { name: 'Chart text' }).click();
    await leader.page.locator('textarea').fill(CROWDED);
    await leader.page.getByRole('button', { name: 'Add it' }).click();
    await leader.page.locator('.pencil-head, .pencil').first().waitFor();
    await callTune(band, 'Crowded Quay');
    const phone = await join(browser, relay.link('player'), { name: 'Mira', instrument: 'Guitar' }, PHONE);
    await countInFrom(band, 'Solos', 2);
    for (const instrument of ['Guitar', 'Piano', 'Double bass', 'Tenor sax']) {
      await play(phone.page, instrument);
      await expect
        .poll(async () => {
          const lines = await measured(phone.page);
          const capitals = lines.flatMap((line) => line.capitals);
          return lines.length === 2 && capitals.length >= 4 ? Math.min(...capitals) : 0;
        })
        .toBeGreaterThan(21.5);
      const chords = (await measured(phone.page)).flatMap((line) => line.chords);
      expect(Math.min(...chords), instrument).toBeGreaterThan(28);
    }
    expect(phone.errors).toEqual([]);
    await phone.context.close();
  });

  it('all drawings of a line are of one scale, and the chords of the line gone by can be read', async () => {
    const { guitar } = band;
    await expect
      .poll(() => guitar.page.locator('.roll .line[data-role="past"] .bar-symbol').count(), {
        timeout: 30_000,
      })
      .toBeGreaterThan(0);
    for (const instrument of ['Piano', 'Guitar']) {
      await play(guitar.page, instrument);
      const drawing = instrument === 'Piano' ? '.keyboard' : '.fret-diagram';
      await guitar.page.locator(`.roll [data-role="now"] ${drawing}`).first().waitFor();
      await expect
        .poll(async () => (await measured(guitar.page)).flatMap(({ scales }) => scales).length)
        .toBeGreaterThan(10);
      for (const { scales } of await measured(guitar.page)) {
        for (const scale of scales) expect(scale / (scales[0] ?? 1), instrument).toBeCloseTo(1, 1);
      }
    }
    const past = await guitar.page.locator('.roll .line[data-role="past"] .bar-symbol').evaluateAll((all) =>
      all.map((one) => {
        const { height } = one.getBoundingClientRect();
        return (
          (height / (one as HTMLElement).offsetHeight) *
          Number.parseFloat(getComputedStyle(one).fontSize) *
          0.703
        );
      }),
    );
    expect(Math.min(...past)).toBeGreaterThan(21.5);
  });
});
