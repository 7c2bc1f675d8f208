import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { type Band, callTune, countInFrom, sitDown } from '../support/band.ts';
import { goTo, type Tablet } from '../support/tablets.ts';

let band: Band;

beforeAll(async () => {
  band = await sitDown(inject('chromium'));
});
afterAll(() => band?.goHome());

const WORDS = 'same chord for 5: listen for the fill in 16';

/** Numbers of the bars that are underlined in the ribbon. */
const underlined = ({ page }: Tablet): Promise<number[]> =>
  page
    .locator('.stand .ribbon > *')
    .evaluateAll((bars) => bars.flatMap((bar, at) => (bar.hasAttribute('data-lost') ? [at + 1] : [])));

const list = ({ page }: Tablet) => page.locator('.lost-spots');

/** Opens the list of the pencil; on a tablet that stands upright it is behind a key. */
const openList = async (tablet: Tablet): Promise<void> => {
  await goTo(tablet, 'Pencil');
  await tablet.page.locator('.pencil [data-bar-id]').first().waitFor();
  const aside = tablet.page.getByRole('button', { name: 'road and notes' });
  if (await aside.isVisible()) await aside.click();
  await list(tablet).waitFor();
};

/** Writes down in which bars, from 1, which words are said, until bar 1 comes round. */
const listen = ({ page }: Tablet): Promise<(readonly [number, string])[]> =>
  page.evaluate(
    () =>
      new Promise<(readonly [number, string])[]>((done) => {
        const heard: (readonly [number, string])[] = [];
        const look = () => {
          const bar = document.querySelector<HTMLElement>('.roll [data-now]')?.dataset['bar'];
          const words = document.querySelector('.lost-words')?.textContent ?? '';
          const number = Number(bar) + 1;
          const [before, said] = heard.at(-1) ?? [];
          if (bar !== undefined && (before !== number || said !== words)) heard.push([number, words]);
          // One bar more, so that what is said in it is heard.
          if (number === 2 && heard.length > 2) done(heard);
          else setTimeout(look, 100);
        };
        look();
      }),
  );

describe('lost spots', () => {
  it('are underlined on every stand, dismissed and brought back by whoever writes, and undone', async () => {
    const { sax, guitar } = band;
    await callTune(band, 'Slow Ferry');
    // One chord in bar 16 and bars 1 to 4, a break in 15, and bar 13 where a blues would begin again.
    await expect.poll(() => underlined(sax), { timeout: 20_000 }).toEqual([1, 2, 3, 4, 13, 15, 16]);
    await openList(guitar);
    await list(guitar).getByRole('button', { name: 'dismiss: 16 bars: 13 is not the top' }).click();
    await expect.poll(() => underlined(sax)).toEqual([1, 2, 3, 4, 15, 16]);
    await list(guitar)
      .getByRole('button', { name: `dismiss: ${WORDS}` })
      .click();
    await expect.poll(() => underlined(sax)).toEqual([15]);
    await guitar.page.getByRole('button', { name: /undo/ }).click();
    await expect.poll(() => underlined(sax)).toEqual([1, 2, 3, 4, 15, 16]);
    await list(guitar).getByText('1 dismissed').click();
    await list(guitar)
      .getByRole('button', { name: /^bring back: 16 bars/ })
      .click();
    await expect.poll(() => underlined(sax)).toEqual([1, 2, 3, 4, 13, 15, 16]);
    await list(guitar)
      .getByRole('button', { name: /^dismiss: 16 bars/ })
      .click();
    await goTo(guitar, 'Stand');
    await expect.poll(() => underlined(guitar)).toEqual([1, 2, 3, 4, 15, 16]);
  });

  it('are said a phrase ahead on the stand and the podium, and gone when they are past', async () => {
    const { sax, leader } = band;
    await callTune(band, 'Slow Ferry');
    await countInFrom(band, 'Solos', 12);
    const heard = listen(sax);
    await leader.page.locator('.called-lost', { hasText: WORDS }).waitFor();
    const bars = await heard;
    expect(bars.filter(([, words]) => words !== '').map(([bar]) => bar)).toEqual([13, 14, 15, 16]);
    expect(new Set(bars.map(([, words]) => words))).toEqual(new Set(['', WORDS]));
    expect(bars.at(-1)?.[0]).toBe(2);
    await leader.page.locator('.called-lost').waitFor({ state: 'detached' });
  });

  it('are only underlined on a tablet that leaves the words out', async () => {
    const { sax, guitar } = band;
    await callTune(band, 'Slow Ferry');
    await sax.page.locator('.stand-dot').click();
    await sax.page.getByRole('button', { name: 'only marked' }).click();
    await sax.page.getByRole('button', { name: 'close' }).click();
    await countInFrom(band, 'Solos', 13);
    await guitar.page.locator('.lost-words', { hasText: WORDS }).waitFor();
    expect(await sax.page.locator('.lost-words').count()).toBe(0);
    expect(await underlined(sax)).toEqual([1, 2, 3, 4, 15, 16]);
    await sax.page.locator('.stand-dot').click();
    await sax.page.getByRole('button', { name: 'said ahead' }).click();
    await sax.page.locator('.lost-words', { hasText: WORDS }).waitFor();
  });

  it('are gone from the other stand while it plays, once the writer dismisses one', async () => {
    const { sax, guitar } = band;
    await callTune(band, 'Slow Ferry');
    await openList(guitar);
    await countInFrom({ ...band, stands: [sax] }, 'Solos', 13);
    await sax.page.locator('.lost-words', { hasText: WORDS }).waitFor();
    await list(guitar)
      .getByRole('button', { name: `dismiss: ${WORDS}` })
      .click();
    await expect.poll(() => underlined(sax)).toEqual([15]);
    expect(await sax.page.locator('.lost-words').textContent()).toBe('');
  });

  it('are added for bars, in words of the writer’s own', async () => {
    const { sax, guitar } = band;
    await callTune(band, 'Slow Ferry');
    await goTo(guitar, 'Pencil');
    const bar = (at: number) =>
      guitar.page.locator('.pencil [data-bar-id]').nth(at).locator('[data-bar-key]');
    await bar(4).click();
    await guitar.page.keyboard.press('Escape');
    await bar(5).click({ modifiers: ['Shift'] });
    await openList(guitar);
    await list(guitar).getByLabel('One more, bars 5–6: in few words').fill('bass alone: count 2');
    await list(guitar).getByRole('button', { name: 'add it' }).click();
    await expect.poll(() => underlined(sax)).toEqual([5, 6, 15]);
    await countInFrom({ ...band, stands: [sax] }, 'Solos', 1);
    await sax.page.locator('.lost-words', { hasText: 'bass alone: count 2' }).waitFor();
  });
});
