import { findChromium } from '../support/find-chromium.ts';
import { relayProcess } from '../support/relay-process.ts';
import { goTo, join, openBrowser } from '../support/tablets.ts';
import type { Print } from './main.ts';

const FRAMES = 900;
const SLOWER = 6;
const BUDGET_MS = 4;

const quantile = (sorted: readonly number[], part: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))] ?? Number.NaN;

/** Times every animation frame's callbacks of the page from its first script on. */
const timeFrames = (): void => {
  const frames: number[] = [];
  Object.assign(window, { frames });
  const request = window.requestAnimationFrame.bind(window);
  let current = Number.NaN;
  window.requestAnimationFrame = (callback) =>
    request((at) => {
      const startMs = performance.now();
      callback(at);
      const tookMs = performance.now() - startMs;
      if (at === current) frames[frames.length - 1] = (frames.at(-1) ?? 0) + tookMs;
      else frames.push(tookMs);
      current = at;
    });
};

/**
 * Script work a frame of a stand that follows a tune, on a processor made six times slower, against an empty
 * frame loop in the same page and run.
 */
export const run = async (print: Print): Promise<void> => {
  const relay = await relayProcess();
  await relay.start();
  const browser = await openBrowser(findChromium());
  try {
    const leader = await join(browser, relay.link('leader'), { name: 'Ines', instrument: 'Guitar' });
    const reader = await join(browser, relay.link('reader'), { name: 'Tomas', instrument: 'Tenor sax' });
    await reader.page.addInitScript(timeFrames);
    await reader.page.reload();
    await goTo(reader, 'Stand');
    await goTo(leader, 'Podium');
    await leader.page.locator('.tunes-key', { hasText: 'Ropewalk' }).click();
    await leader.page.locator('.pad-key[data-key-id="start"]').click();
    await reader.page.locator('main.stand[data-state="playing"]').waitFor({ timeout: 30_000 });
    const devTools = await reader.context.newCDPSession(reader.page);
    await devTools.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
    const measure = async (name: string) => {
      const frames = await reader.page.evaluate(async (wanted) => {
        const all = (window as unknown as { frames: number[] }).frames;
        all.length = 0;
        while (all.length < wanted) await new Promise((done) => setTimeout(done, 100));
        return all.slice(0, wanted);
      }, FRAMES);
      const sorted = [...frames].sort((a, b) => a - b);
      const mean = frames.reduce((sum, ms) => sum + ms, 0) / frames.length;
      const p = (part: number) => quantile(sorted, part).toFixed(2);
      print(
        `${name}: mean ${mean.toFixed(2)} ms, p50 ${p(0.5)}, p95 ${p(0.95)}, p99 ${p(0.99)}, max ${p(1)} (${frames.length} frames)`,
      );
      return mean;
    };
    const stand = await measure(`stand at ${SLOWER}× throttling (budget ${BUDGET_MS} ms)`);
    await goTo(reader, 'Book');
    // As text: a compiled function would bring names along that the page does not have.
    await reader.page.evaluate('(function again() { requestAnimationFrame(again); })()');
    const empty = await measure('baseline: an empty frame loop');
    print(`ratio of the means: ${(stand / empty).toFixed(1)}`);
  } finally {
    await browser.close();
    await relay.remove();
  }
};
