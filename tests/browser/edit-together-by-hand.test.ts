import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { type Band, callTune, sitDown } from '../support/band.ts';
import { goTo, PHONE, PORTRAIT, type Tablet } from '../support/tablets.ts';

let band: Band;

beforeAll(async () => {
  band = await sitDown(inject('chromium'));
});
afterAll(() => band?.goHome());

const pencil = ({ page }: Tablet) => page.locator('main.pencil');
const bars = (tablet: Tablet) => pencil(tablet).locator('[data-bar-id]');
const field = (tablet: Tablet) => pencil(tablet).locator('[data-bar-field]');
const button = (tablet: Tablet, name: string | RegExp) =>
  pencil(tablet).getByRole('button', { name, exact: typeof name === 'string' });

/** What the bars hold, as a screen reader hears it; the one that is being typed into is left out. */
const texts = (tablet: Tablet): Promise<string[]> =>
  pencil(tablet)
    .locator('[data-bar-key]')
    .evaluateAll((keys) => keys.map((key) => (key.getAttribute('aria-label') ?? '').replace(/^.*?: /, '')));

/** The name, or the value, of what has the keyboard. */
const atHand = ({ page }: Tablet): Promise<string> =>
  page.evaluate(() => {
    const { activeElement: at } = document;
    return at?.getAttribute('aria-label') ?? at?.closest('label')?.textContent ?? at?.tagName ?? '';
  });

const bothOpen = async (title: string): Promise<{ guitar: Tablet; sax: Tablet }> => {
  const { guitar, sax, stands } = band;
  await callTune(band, title);
  for (const stand of stands) {
    await goTo(stand, 'Pencil');
    await bars(stand).nth(4).waitFor();
  }
  return { guitar, sax };
};

describe('at the pencil, by hand', () => {
  it('keeps what is typed into a bar that another player deletes, under the same caret, and puts it back', async () => {
    const { guitar, sax } = await bothOpen('Ropewalk');
    const before = await texts(sax);
    await bars(guitar).nth(2).locator('[data-bar-key]').click();
    await field(guitar).fill('F13sus');
    await bars(sax).nth(2).locator('[data-bar-key]').focus();
    await sax.page.keyboard.press('Delete');
    const lost = guitar.page.locator('.lost-draft');
    await lost.waitFor();
    expect(await lost.textContent()).toContain('Tomas deleted bar 3 while you were typing');
    await guitar.page.keyboard.type(' F7');
    expect(await lost.locator('input').inputValue()).toBe('F13sus F7');
    await lost.getByRole('button', { name: 'put it back' }).click();
    const wanted = before.map((text, at) => (at === 2 ? 'F13sus F7' : text));
    await expect.poll(() => texts(sax)).toEqual(wanted);
    await expect.poll(() => lost.count()).toBe(0);
    await button(guitar, 'undo mine').click();
    await expect.poll(() => texts(sax)).toEqual(before.filter((_, at) => at !== 2));
    await button(guitar, 'redo').click();
    await expect.poll(() => texts(sax)).toEqual(wanted);
  });

  it('offers back what was typed into a bar that another player wrote over, online and after an absence', async () => {
    const { guitar, sax } = await bothOpen('Ropewalk');
    const before = await texts(guitar);
    const over = (tablet: Tablet) => tablet.page.locator('.written-over');
    const write = async (tablet: Tablet, at: number, text: string) => {
      await bars(tablet).nth(at).locator('[data-bar-key]').click();
      await field(tablet).fill(text);
    };
    await write(guitar, 1, 'F9');
    await write(sax, 1, 'F11');
    await field(guitar).press('Enter');
    await expect.poll(async () => (await texts(guitar))[1]).toBe('F9');
    await field(sax).press('Enter');
    await expect.poll(() => over(guitar).textContent()).toContain('Tomas wrote over your bar 2: F9');
    await over(guitar).getByRole('button', { name: 'put it back' }).click();
    await expect.poll(async () => (await texts(sax))[1]).toBe('F9');
    await expect.poll(() => over(guitar).count()).toBe(0);
    await over(sax).getByRole('button', { name: 'let it go' }).click();
    await expect.poll(() => over(sax).count()).toBe(0);
    // Who wins a bar that both wrote while one was away is for the documents to say; the other one is asked.
    band.link.cut();
    await write(sax, 3, 'Cm9');
    await field(sax).press('Enter');
    await pencil(sax).locator('[data-saved="kept"]').waitFor();
    await write(guitar, 3, 'Cm11');
    await field(guitar).press('Enter');
    band.link.mend();
    await expect
      .poll(async () => (await over(guitar).count()) + (await over(sax).count()), { timeout: 20_000 })
      .toBe(1);
    const loser = (await over(guitar).count()) > 0 ? guitar : sax;
    const own = loser === guitar ? 'Cm11' : 'Cm9';
    await loser.page.reload();
    await expect.poll(() => over(loser).textContent()).toContain(`wrote over your bar 4: ${own}`);
    await over(loser).getByRole('button', { name: 'put it back' }).click();
    for (const one of [guitar, sax]) await expect.poll(async () => (await texts(one))[3]).toBe(own);
    await write(guitar, 1, before[1] ?? '');
    await field(guitar).press('Enter');
    await write(guitar, 3, before[3] ?? '');
    await field(guitar).press('Enter');
    await expect.poll(() => texts(sax)).toEqual(before);
  });

  it('offers back what another player wrote over beside the bars, and says what undo did or why not', async () => {
    const { guitar, sax } = await bothOpen('Ropewalk');
    const said = (tablet: Tablet) => pencil(tablet).locator('.pencil-step').textContent();
    const tempo = (tablet: Tablet) => pencil(tablet).getByLabel('tempo');
    const was = await tempo(guitar).inputValue();
    for (const [one, value] of [[guitar, '140'] as const, [sax, '150'] as const]) {
      await tempo(one).fill(value);
      await tempo(one).press('Enter');
      for (const each of [guitar, sax]) await expect.poll(() => tempo(each).inputValue()).toBe(value);
    }
    const over = guitar.page.locator('.written-over');
    await expect.poll(() => over.textContent()).toContain('Tomas wrote over your tempo: 140');
    await over.getByRole('button', { name: 'put it back' }).click();
    await expect.poll(() => tempo(sax).inputValue()).toBe('140');
    const lost = sax.page.locator('.written-over', { hasText: 'tempo' });
    await lost.getByRole('button', { name: 'let it go' }).click();
    await button(sax, 'undo mine').click();
    await expect.poll(() => said(sax)).toContain('Bea has changed tempo since');
    expect(await tempo(sax).inputValue()).toBe('140');
    await button(guitar, 'undo mine').click();
    await expect.poll(() => said(guitar)).toBe('Taken back: tempo is “150” again.');
    await tempo(guitar).fill(was);
    await tempo(guitar).press('Enter');
    await expect.poll(() => tempo(sax).inputValue()).toBe(was);
  });

  it('brings into view what another player writes into the bar at hand, on a phone', async () => {
    const { guitar, sax } = await bothOpen('Ropewalk');
    await guitar.page.setViewportSize(PHONE);
    const before = await texts(sax);
    const foot = async () => (await pencil(guitar).locator('.pencil-foot').boundingBox())?.y ?? 0;
    await bars(guitar).nth(9).locator('[data-bar-key]').click();
    await field(guitar).fill('F9');
    // As low as it goes on the screen.
    await pencil(guitar)
      .locator('.understood')
      .evaluate((line) => line.scrollIntoView({ block: 'end' }));
    await bars(sax).nth(9).locator('[data-bar-key]').click();
    await field(sax).fill('Fmaj7');
    await field(sax).press('Enter');
    const news = pencil(guitar).locator('.understood [role="alert"]');
    await expect.poll(() => news.textContent()).toContain('Tomas wrote “Fmaj7” here meanwhile');
    const bottom = async () => {
      const box = await news.boundingBox();
      return box === null ? Number.POSITIVE_INFINITY : box.y + box.height;
    };
    await expect.poll(async () => (await bottom()) <= (await foot())).toBe(true);
    await field(guitar).press('Escape');
    await button(sax, 'undo mine').click();
    await expect.poll(() => texts(sax)).toEqual(before);
    await guitar.page.setViewportSize(PORTRAIT);
  });

  it('says that a chart was deleted to whoever has it open; one on the stands is asked for once more', async () => {
    const { guitar, sax, leader } = band;
    await callTune(band, 'Ropewalk');
    await goTo(guitar, 'Pencil');
    for (const one of [sax, leader]) {
      await goTo(one, 'Book');
      await one.page.locator('.chart-row-head', { hasText: 'Ropewalk' }).click();
    }
    const row = sax.page.locator('.chart-row[data-open="true"]');
    await row.getByRole('button', { name: 'Delete', exact: true }).click();
    await expect.poll(() => row.locator('[role="alert"]').textContent()).toContain('on the stands');
    await row.getByRole('button', { name: 'Keep it' }).click();
    expect(await row.locator('[role="alert"]').count()).toBe(0);
    await row.getByRole('button', { name: 'Delete', exact: true }).click();
    await row.getByRole('button', { name: 'Delete it' }).click();
    await leader.page.locator('.book .strip', { hasText: 'Ropewalk is out of the book' }).waitFor();
    const news = pencil(guitar).locator('.strip', { hasText: 'has been deleted' });
    await news.getByRole('button', { name: 'Put it back' }).click();
    await expect.poll(() => news.count()).toBe(0);
    await leader.page.locator('.chart-row-head', { hasText: 'Ropewalk' }).waitFor();
    expect(await leader.page.locator('.book .strip').count()).toBe(0);
  });

  it('says so where a name has more letters than there is room for', async () => {
    const { sax } = band;
    await sax.page.getByRole('navigation', { name: 'Views' }).getByText('You', { exact: true }).click();
    const name = sax.page.getByLabel(/your name/i);
    await name.fill('T'.repeat(41));
    expect(await name.inputValue()).toBe('T'.repeat(40));
    const words = sax.page.getByText('There is room for 40 letters');
    expect(await words.count()).toBe(1);
    await name.fill('Tomas');
    expect(await words.count()).toBe(0);
    await sax.page.keyboard.press('Escape');
  });

  it('leaves the caret where it is when another player puts bars before the one that is typed into', async () => {
    const { guitar, sax } = await bothOpen('Ropewalk');
    const before = await texts(guitar);
    await bars(guitar).nth(4).locator('[data-bar-key]').click();
    await field(guitar).fill('Bb13 F7');
    await guitar.page.keyboard.press('Home');
    await guitar.page.keyboard.press('Control+ArrowRight');
    await bars(sax).first().locator('[data-bar-key]').focus();
    await sax.page.keyboard.press('Control+d');
    await expect.poll(async () => (await texts(guitar)).length).toBe(before.length);
    await guitar.page.keyboard.type(' Eb9');
    expect(await field(guitar).inputValue()).toBe('Bb13 Eb9 F7');
    await guitar.page.keyboard.press('Escape');
    await expect.poll(() => atHand(guitar)).toMatch(/^bar 6:/);
    await button(sax, 'undo mine').click();
    await expect.poll(() => texts(guitar)).toEqual(before);
    await expect.poll(() => atHand(guitar)).toMatch(/^bar 5:/);
  });

  it('writes, goes on, moves, doubles and deletes by the keyboard, and never loses its place', async () => {
    const { guitar, sax } = await bothOpen('Ropewalk');
    const { keyboard } = guitar.page;
    const before = await texts(guitar);
    await bars(guitar).first().locator('[data-bar-key]').focus();
    await keyboard.type('F13');
    await keyboard.press('Tab');
    expect(await field(guitar).inputValue()).toBe(before[1]);
    await keyboard.press('Escape');
    await expect.poll(() => atHand(guitar)).toMatch(/^bar 2:/);
    expect((await texts(guitar))[0]).toBe('F13');
    await keyboard.press('ArrowLeft');
    await keyboard.press('Shift+ArrowRight');
    expect(await pencil(guitar).locator('[data-chosen]').count()).toBe(2);
    await keyboard.press('Control+d');
    await expect.poll(() => texts(sax)).toEqual(['F13', before[1], 'F13', ...before.slice(1)]);
    await expect.poll(() => atHand(guitar)).toMatch(/^bar 4:/);
    await keyboard.press('Alt+ArrowLeft');
    await expect
      .poll(async () => (await texts(sax)).slice(0, 4))
      .toEqual(['F13', 'F13', before[1], before[1]]);
    await keyboard.press('Delete');
    await expect.poll(async () => (await texts(sax)).length).toBe(before.length);
    await expect.poll(() => atHand(guitar)).toMatch(/^bar 2:/);
    for (const _ of [1, 2, 3, 4]) await keyboard.press('Control+z');
    await expect.poll(() => texts(sax)).toEqual(before);
  });

  it('takes bars together by sweeping over them, and a press after typing is not lost', async () => {
    const { guitar } = await bothOpen('Ropewalk');
    const { mouse } = guitar.page;
    const middleOf = async (at: number) => {
      const box = await bars(guitar).nth(at).boundingBox();
      if (!box) throw new Error(`bar ${at} is not drawn`);
      return [box.x + box.width / 2, box.y + box.height / 2] as const;
    };
    await mouse.move(...(await middleOf(1)));
    await mouse.down();
    await mouse.move(...(await middleOf(2)), { steps: 4 });
    await mouse.move(...(await middleOf(5)), { steps: 4 });
    await mouse.up();
    expect(await pencil(guitar).locator('[data-chosen]').count()).toBe(5);
    expect(await field(guitar).count()).toBe(0);
    // The line under the bar goes away when the field is left; what is pressed below it must not run from the mouse.
    await bars(guitar).first().locator('[data-bar-key]').click();
    await field(guitar).fill('F6');
    await mouse.move(...(await middleOf(8)));
    await mouse.down();
    await guitar.page.waitForTimeout(120);
    await mouse.up();
    expect(await bars(guitar).nth(8).getAttribute('data-open')).toBe('');
    expect((await texts(guitar))[0]).toBe('F6');
    await field(guitar).press('Escape');
    await button(guitar, 'undo mine').click();
  });

  it('keeps a bad header value and says what is wrong; a suggestion is taken with one touch, and back', async () => {
    const { guitar, sax } = await bothOpen('Ropewalk');
    const tempo = pencil(guitar).getByLabel('tempo');
    const was = await tempo.inputValue();
    await tempo.fill('fast 140');
    await tempo.press('Enter');
    await expect.poll(() => pencil(sax).getByLabel('tempo').inputValue()).toBe('fast 140');
    expect(await pencil(guitar).locator('.head-fields .field-problem').textContent()).toContain(
      'is no tempo',
    );
    await goTo(sax, 'Pencil');
    await button(sax, 'write 140 instead').click();
    await expect.poll(() => tempo.inputValue()).toBe('140');
    await button(sax, 'undo mine').click();
    await expect.poll(() => tempo.inputValue()).toBe('fast 140');
    await tempo.fill(was);
    await tempo.press('Enter');
    await expect.poll(() => pencil(sax).getByLabel('tempo').inputValue()).toBe(was);
  });

  it('puts the whole chart into another key in one step, while another player types into it', async () => {
    const { guitar, sax } = await bothOpen('Slow Ferry');
    const before = await texts(guitar);
    await bars(sax).nth(3).locator('[data-bar-key]').click();
    await field(sax).fill('Eb13');
    await button(guitar, 'transpose').click();
    await button(guitar, /^into F blues/).click();
    await expect.poll(() => pencil(sax).getByLabel('concert key').inputValue()).toBe('F blues');
    expect(await field(sax).inputValue()).toBe('Eb13');
    await field(sax).press('Escape');
    await expect.poll(async () => (await texts(sax))[0]).toBe('F7');
    await button(guitar, 'undo mine').click();
    await expect.poll(() => texts(sax)).toEqual(before);
  });
});
