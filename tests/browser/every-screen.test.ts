import AxeBuilder from '@axe-core/playwright';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { type Band, callTune, countInFrom, padKey, sitDown } from '../support/band.ts';
import { keysAstray } from '../support/keys-astray.ts';
import { goTo, join, LANDSCAPE, PHONE, PORTRAIT, type Tablet } from '../support/tablets.ts';

let band: Band;

beforeAll(async () => {
  band = await sitDown(inject('chromium'));
});
afterAll(() => band?.goHome());

const VIEWS = ['Book', 'Stand', 'Podium', 'Pencil'] as const;
/** A phone on its side, and smaller ones; a tablet at twice the size. */
const LOW_SCREENS = [
  { width: 844, height: 390 },
  { width: 667, height: 375 },
  { width: 590, height: 410 },
  { width: 320, height: 568 },
];
const SCREENS = { landscape: LANDSCAPE, portrait: PORTRAIT, phone: PHONE };

/** What axe calls serious or critical on the page, one line a rule. */
const graveViolations = async ({ page }: Tablet, view: string): Promise<string[]> => {
  const { violations } = await new AxeBuilder({ page }).analyze();
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, nodes }) => `${view} ${id}: ${nodes.map(({ html }) => html).join(' ')}`);
};

describe('on every screen', () => {
  it.each(VIEWS)('axe finds nothing serious in the %s, and nothing runs off its side', async (view) => {
    const { leader } = band;
    await callTune(band, 'Ropewalk');
    if (view === 'Podium' || view === 'Stand') await countInFrom(band, 'Solos', 1);
    await goTo(leader, view);
    for (const [name, size] of Object.entries(SCREENS)) {
      await leader.page.setViewportSize(size);
      await leader.page.waitForTimeout(300);
      expect(await graveViolations(leader, `${view}, ${name}`)).toEqual([]);
      const beyond = () =>
        leader.page.evaluate(
          () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
        );
      expect(await beyond(), `${view}, ${name}`).toBe(0);
    }
    await leader.page.setViewportSize(LANDSCAPE);
  });

  it('a finger reaches every key of the podium, also on a low screen with many cues called', async () => {
    const { leader } = band;
    await callTune(band, 'Ropewalk');
    await countInFrom(band, 'Solos', 1);
    for (const id of ['breakAtTop', 'build', 'stopTime', 'lastChorus']) await padKey(band, id).click();
    const screens = [PHONE, LANDSCAPE, PORTRAIT, ...LOW_SCREENS];
    const reachAll = async (what: string) => {
      for (const size of screens) {
        await leader.page.setViewportSize(size);
        await leader.page.waitForTimeout(60);
        expect(await keysAstray(leader, '.podium'), `${what}, ${size.width} × ${size.height}`).toEqual([]);
      }
    };
    await reachAll('keys');
    await leader.page.locator('.page-keys').getByRole('button', { name: 'Spot', exact: true }).click();
    await reachAll('a spot');
    await leader.page.setViewportSize(LANDSCAPE);
    await leader.page.locator('.page-keys').getByRole('button', { name: 'Form', exact: true }).click();
  });

  it('and every key of the podium in the Shed, under its rooms, where the words of a leg are long', async () => {
    const { guitar } = band;
    const { page } = guitar;
    await page.evaluate(() => {
      const board = window.tillcue?.board;
      const chart = board?.book.get().charts.find(({ title }) => title === 'Low Water');
      location.hash = `#${encodeURIComponent(board?.band ?? '')}/shed/${chart?.id}`;
    });
    await page.locator('.shed-rooms').getByRole('button', { name: 'Lead', exact: true }).click();
    await page.locator('.podium [data-key-id="start"]').click();
    await page.locator('.podium [data-leg-name="Intro"]').waitFor();
    for (const size of [LANDSCAPE, PHONE, PORTRAIT, ...LOW_SCREENS]) {
      await page.setViewportSize(size);
      await page.waitForTimeout(60);
      expect(await keysAstray(guitar, '.podium'), `${size.width} × ${size.height}`).toEqual([]);
    }
    await page.setViewportSize(PORTRAIT);
    await goTo(guitar, 'Stand');
  });

  it('the next cue is read whole on every screen, and the chords stay larger than what stands under them', async () => {
    const { sax } = band;
    await callTune(band, 'Ropewalk');
    await countInFrom(band, 'Solos', 1);
    for (const id of ['stopTime', 'lastChorus', 'breakAtTop']) await padKey(band, id).click();
    const { page } = sax;
    await page.locator('.stand .flags > .flag').waitFor();
    for (const size of [PHONE, ...LOW_SCREENS]) {
      await page.setViewportSize(size);
      await page.waitForTimeout(100);
      const seen = await page.evaluate(() => {
        const box = (what: string) => document.querySelector(what)?.getBoundingClientRect() ?? new DOMRect();
        const [flag, where] = [box('.stand .flags > .flag'), box('.stand-where')];
        const chords = document.querySelectorAll('.stand [data-role="now"] .bar-chord');
        return {
          beyond: Math.max(
            flag.right - window.innerWidth,
            flag.bottom - where.bottom,
            where.top - flag.top,
            0,
          ),
          others: getComputedStyle(document.querySelector('.flags-others') as Element, '::after').content,
          chordPx: Math.min(...[...chords].map((chord) => chord.getBoundingClientRect().height)),
        };
      });
      const where = `${size.width} × ${size.height}`;
      expect(seen.beyond, where).toBeLessThanOrEqual(1);
      expect(seen.others, where).toMatch(/^"\+\d"$/);
      expect(seen.chordPx, where).toBeGreaterThan(24);
    }
    await page.setViewportSize(LANDSCAPE);
  });

  it('axe finds nothing serious where one joins, nor on the start page', async () => {
    const { browser, relay, leader } = band;
    const context = await browser.newContext({ viewport: PHONE });
    const page = await context.newPage();
    const guest: Tablet = { context, page, errors: leader.errors };
    for (const address of [relay.link('player'), `${relay.origin}/`]) {
      await page.goto(address);
      await page.locator('main').first().waitFor();
      expect(await graveViolations(guest, address)).toEqual([]);
    }
    await context.close();
  });

  it('no page has thrown', async () => {
    const phone = await join(
      band.browser,
      band.relay.link('player'),
      { name: 'Joon', instrument: 'Drums' },
      PHONE,
    );
    await goTo(phone, 'Stand');
    await goTo(phone, 'Book');
    for (const { errors } of [...band.tablets, phone]) expect(errors).toEqual([]);
    await phone.context.close();
  });
});
