import { findChromium } from '../support/find-chromium.ts';
import { relayProcess } from '../support/relay-process.ts';
import { goTo, join, openBrowser } from '../support/tablets.ts';
import type { Print } from './main.ts';
import { quantile } from './quantile.ts';

const FRAMES = 1800;
const SLOWER = 6;
const BUDGET_MS = 4;
/** So long after a line has changed, what the page has to do belongs to the rolling, ms. */
const ROLLING_MS = 400;

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

/** Notes when the line being played changes, and every task of the page above 50 ms. */
const watchRolling = (): void => {
  const lines: number[] = [];
  const tasks: { startMs: number; tookMs: number }[] = [];
  Object.assign(window, { rolling: { lines, tasks } });
  new PerformanceObserver((list) => {
    for (const { startTime, duration } of list.getEntries())
      tasks.push({ startMs: startTime, tookMs: duration });
  }).observe({ type: 'longtask' });
  const roll = document.querySelector('.roll');
  if (roll === null) throw new Error('no roll on this stand');
  let line: string | undefined;
  new MutationObserver(() => {
    const now = roll.querySelector<HTMLElement>('.line:has([data-now])')?.dataset['line'];
    if (now !== undefined && line !== undefined && now !== line) lines.push(performance.now());
    line = now ?? line;
  }).observe(roll, { subtree: true, attributes: true, attributeFilter: ['data-now'] });
};

interface Rolling {
  readonly lines: readonly number[];
  readonly tasks: readonly { readonly startMs: number; readonly tookMs: number }[];
}

/** The long tasks around each change of the line being played, and how many frames were drawn while it rolled. */
const rollingWords = ({ lines, tasks }: Rolling): string => {
  const longest = lines.map((atMs) =>
    Math.max(
      0,
      ...tasks
        .filter(({ startMs, tookMs }) => startMs + tookMs > atMs && startMs < atMs + ROLLING_MS)
        .map(({ tookMs }) => tookMs),
    ),
  );
  const sorted = [...longest].sort((a, b) => a - b);
  return (
    `${lines.length} changes of the line: longest task of the page at each p50 ${quantile(sorted, 0.5).toFixed(0)}, ` +
    `max ${quantile(sorted, 1).toFixed(0)} ms (0 = under 50); ${tasks.length} tasks above 50 ms in all`
  );
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
    await reader.page.evaluate(watchRolling);
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
    const rolling = await reader.page.evaluate(() => (window as unknown as { rolling: Rolling }).rolling);
    print(`  ${rollingWords(rolling)}`);
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
