import type {} from '../../client/app/band-page.tsx';
import { perform } from '../../common/stage/perform.ts';
import { barsAround } from '../../common/stage/upcoming.ts';
import { findChromium } from '../support/find-chromium.ts';
import { relayProcess } from '../support/relay-process.ts';
import { goTo, join, openBrowser, type Tablet } from '../support/tablets.ts';
import type { Print } from './main.ts';

const LISTEN_MS = 30_000;
/** One frame of a 60 Hz screen: what a change that is drawn at all has to wait for at most, ms. */
const FRAME_MS = 16.7;

/** When each bar was lit on this stand, in shared ms, and the take it played. */
const changesOf = ({ page }: Tablet) =>
  page.evaluate(
    (listenMs) =>
      new Promise<{ changes: { bar: string; atMs: number }[]; take: unknown }>((done) => {
        const changes: { bar: string; atMs: number }[] = [];
        const board = window.tillcue?.board;
        const observer = new MutationObserver(() => {
          const { leg, pass, bar } = document.querySelector<HTMLElement>('[data-now]')?.dataset ?? {};
          const lit = `${leg} ${pass} ${bar}`;
          if (leg !== undefined && changes.at(-1)?.bar !== lit)
            changes.push({ bar: lit, atMs: Number(board?.sharedNow()) });
        });
        observer.observe(document.body, {
          subtree: true,
          attributes: true,
          attributeFilter: ['data-bar', 'data-now'],
        });
        setTimeout(() => {
          observer.disconnect();
          done({ changes, take: board?.stage.get().take });
        }, listenMs);
      }),
    LISTEN_MS,
  );

/** How long after the computed instant three stands light a bar, against one frame of the screen. */
export const run = async (print: Print): Promise<void> => {
  const relay = await relayProcess();
  await relay.start();
  const browser = await openBrowser(findChromium());
  try {
    const leader = await join(browser, relay.link('leader'), { name: 'Ines', instrument: 'Guitar' });
    const stands: Tablet[] = [];
    for (const name of ['Tomas', 'Bea', 'Joon']) {
      const stand = await join(browser, relay.link('reader'), { name, instrument: 'Tenor sax' });
      await goTo(stand, 'Stand');
      stands.push(stand);
    }
    await goTo(leader, 'Podium');
    await leader.page.locator('.tunes-key', { hasText: 'Ropewalk' }).click();
    await leader.page.locator('.pad-key[data-key-id="start"]').click();
    for (const { page } of stands)
      await page.locator('main.stand[data-state="playing"]').waitFor({ timeout: 30_000 });
    const lateMs: number[] = [];
    for (const { changes, take } of await Promise.all(stands.map(changesOf))) {
      const performance = perform(take as Parameters<typeof perform>[0]);
      // The first is the bar that was lit when the listening began.
      for (const { bar, atMs } of changes.slice(1)) {
        const { bars } = barsAround(performance, atMs, 1, 1);
        const started = bars.find(({ place }) => `${place.leg} ${place.pass} ${place.barIndex}` === bar);
        if (started !== undefined) lateMs.push(atMs - started.startMs);
      }
    }
    lateMs.sort((a, b) => a - b);
    const at = (part: number) =>
      lateMs[Math.min(lateMs.length - 1, Math.floor(part * lateMs.length))] ?? Number.NaN;
    print(
      `a bar is lit after its computed instant: p50 ${at(0.5).toFixed(1)} ms, p99 ${at(0.99).toFixed(1)} ms (${lateMs.length} changes on ${stands.length} stands)`,
    );
    print(
      `baseline: one frame at 60 Hz, ${FRAME_MS} ms; ratio of the median ${(at(0.5) / FRAME_MS).toFixed(2)}`,
    );
  } finally {
    await browser.close();
    await relay.remove();
  }
};
