import type { Browser, Locator } from 'playwright-core';
import { expect } from 'vitest';
import { locate } from '../../common/stage/locate.ts';
import { type CutLink, cutLink } from './cut-link.ts';
import { type RelayProcess, relayProcess } from './relay-process.ts';
import { look, performanceOf } from './same-bar.ts';
import { goTo, join, openBrowser, PORTRAIT, type Tablet } from './tablets.ts';

/** Three tablets at a relay of their own: Ines leads at the podium, Tomas and Bea at their stands. */
export interface Band {
  readonly browser: Browser;
  readonly relay: RelayProcess;
  readonly leader: Tablet;
  /** Tenor sax, at the far end of a link that can be cut. */
  readonly sax: Tablet;
  /** Guitar, on a tablet that stands upright. */
  readonly guitar: Tablet;
  readonly link: CutLink;
  readonly tablets: readonly Tablet[];
  readonly stands: readonly Tablet[];
  readonly goHome: () => Promise<void>;
}

/** Starts a relay and a browser and lets the three join by the links that the relay printed. */
export const sitDown = async (chromium: string): Promise<Band> => {
  const relay = await relayProcess();
  const [browser] = await Promise.all([openBrowser(chromium), relay.start()]);
  const link = await cutLink(relay.port);
  const [leader, sax, guitar] = await Promise.all([
    join(browser, relay.link('leader'), { name: 'Ines', instrument: 'Guitar' }),
    join(browser, relay.link('player', link.origin), { name: 'Tomas', instrument: 'Tenor sax' }),
    join(browser, relay.link('player'), { name: 'Bea', instrument: 'Guitar' }, PORTRAIT),
  ]);
  const goHome = async () => {
    await browser.close();
    await link.close();
    await relay.remove();
  };
  const stands = [sax, guitar];
  return { browser, relay, leader, sax, guitar, link, tablets: [leader, ...stands], stands, goHome };
};

/** A key of the podium's pad. */
export const padKey = ({ leader }: Band, id: string): Locator =>
  leader.page.locator(`.pad-key[data-key-id="${id}"]`);

export const flag = ({ page }: Tablet, kind: string): Locator =>
  page.locator(`.stand .flag[data-kind="${kind}"]`);

/** Waits until all stands are at that moment of a tune. */
export const allAre = async ({ stands }: Band, state: string): Promise<void> => {
  await Promise.all(stands.map(({ page }) => page.locator(`main.stand[data-state="${state}"]`).waitFor()));
};

const quiet = async ({ leader }: Band): Promise<boolean> => {
  const { take, sharedMs } = await look(leader);
  return take === null || ['waiting', 'ended'].includes(locate(performanceOf(take), sharedMs).state);
};

/** Whatever was on before: the tune waits on every stand, and the leader is at the podium. */
export const callTune = async (band: Band, title: string): Promise<void> => {
  const { leader, stands } = band;
  await goTo(leader, 'Podium');
  await Promise.all(stands.map((stand) => goTo(stand, 'Stand')));
  const tunes = leader.page.getByRole('button', { name: 'tunes', exact: true });
  const choice = leader.page.locator('.tunes-key', { hasText: title });
  await tunes.or(choice).first().waitFor();
  if (!(await quiet(band))) {
    await padKey(band, 'stop').click();
    await expect.poll(() => quiet(band), { timeout: 10_000 }).toBe(true);
  }
  if (await tunes.isVisible()) await tunes.click();
  await choice.click();
  await leader.page.locator('.podium-head h1', { hasText: title }).waitFor();
  await allAre(band, 'waiting');
};

/** Counts in from that bar (numbered from 1) of a leg, and waits until the band plays. */
export const countInFrom = async (band: Band, leg: string, bar: number): Promise<void> => {
  const { page } = band.leader;
  await page.locator('.leg-tabs').getByRole('button', { name: leg, exact: true }).click();
  await page
    .locator('.bar-choice')
    .getByRole('button', { name: `bar ${bar}`, exact: true })
    .click();
  await page.locator('.bar-actions').getByRole('button', { name: 'count in from here' }).click();
  await allAre(band, 'count');
  await allAre(band, 'playing');
};
