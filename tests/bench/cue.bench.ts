import type { Browser } from 'playwright-core';
import type {} from '../../client/app/band-page.tsx';
import { findChromium } from '../support/find-chromium.ts';
import { type RelayProcess, relayProcess } from '../support/relay-process.ts';
import { goTo, join, openBrowser, type Tablet } from '../support/tablets.ts';
import { bareBroadcast, openReaders, type Readers } from './cue-readers.ts';
import type { Print } from './main.ts';
import { quantile } from './quantile.ts';

const CROWDS = [8, 50];
const CUES = 200;
/** A take is called anew after so many cues: no evening calls hundreds in one. */
const CUES_A_TAKE = 25;
/** About as long as the frame of a cue on the stage document: 80 to 120 bytes. */
const BARE_BYTES = 100;
const FLAGS = 30;
/** Slow enough that no chorus ends while the flags are counted. */
const SLOW_BPM = 60;
const FRAME_MS = 1000 / 60;

const pause = (ms: number) => new Promise((done) => setTimeout(done, ms));
const p50p99 = (values: readonly number[]): string =>
  `p50 ${quantile(values, 0.5).toFixed(2)}, p99 ${quantile(values, 0.99).toFixed(2)} ms`;
const verdict = (met: boolean): string => (met ? '(met)' : '(MISSED)');

/** From the leader's call to the flag on three stands, and to raw readers of the stage document. */
export const run = async (print: Print): Promise<void> => {
  const relay = await relayProcess();
  const bare = await bareBroadcast();
  try {
    await relay.start();
    const browser = await openBrowser(findChromium());
    let stands: Awaited<ReturnType<typeof callToFlags>>;
    try {
      stands = await callToFlags(browser, relay, bare.url);
    } finally {
      await browser.close();
    }
    const { flagMs, heardMs, bareMs } = stands;
    print(`call to flag in the page, 3 stands: ${p50p99(flagMs)} (${flagMs.length} flags)`);
    print(`  of which until the cue is in the stand's document: ${p50p99(heardMs)}`);
    print(`baseline: bare ws broadcast between the same pages: ${p50p99(bareMs)}`);
    const overMs = quantile(flagMs, 0.5) - quantile(bareMs, 0.5);
    print(
      `  goal: one frame (${FRAME_MS.toFixed(1)} ms) above the baseline; the median is ${overMs.toFixed(1)} ms ` +
        `above ${verdict(overMs <= FRAME_MS)}; ratios ${ratio(flagMs, bareMs, 0.5)}, ${ratio(flagMs, bareMs, 0.99)}`,
    );
    for (const count of CROWDS) await printCrowd(print, relay, bare.url, stands.chart, count);
  } finally {
    bare.close();
    await relay.remove();
  }
};

const ratio = (ours: readonly number[], bare: readonly number[], part: number): string =>
  (quantile(ours, part) / quantile(bare, part)).toFixed(2);

/** Keeps in the page at what times of the wall clock, ms, a last chorus was in the document and came up as a flag, and when a bare message came. */
const watchFlags = ({ page }: Tablet, bareUrl: string) =>
  page.evaluate((url) => {
    const flagsAtMs: number[] = [];
    const heardAtMs: number[] = [];
    const bareAtMs: number[] = [];
    Object.assign(window, { flagsAtMs, heardAtMs, bareAtMs });
    const bare = new WebSocket(url);
    bare.onmessage = () => bareAtMs.push(performance.timeOrigin + performance.now());
    const board = window.tillcue?.board;
    board?.stage.subscribe(() => {
      if (board.stage.get().take?.cues.at(-1)?.cue.kind === 'lastChorus')
        heardAtMs.push(performance.timeOrigin + performance.now());
    });
    let shown = false;
    new MutationObserver(() => {
      const atMs = performance.timeOrigin + performance.now();
      const shows = document.querySelector('.stand .flag[data-kind="lastChorus"]') !== null;
      if (shows && !shown) flagsAtMs.push(atMs);
      shown = shows;
    }).observe(document.body, { subtree: true, childList: true });
    return new Promise<void>((done, failed) => {
      bare.onopen = () => done();
      bare.onerror = () => failed(new Error(`no connection to ${url}`));
    });
  }, bareUrl);

const seenBy = ({ page }: Tablet) =>
  page.evaluate(() => {
    const kept = window as unknown as Record<'flagsAtMs' | 'heardAtMs' | 'bareAtMs', number[]>;
    return { flagsAtMs: kept.flagsAtMs, heardAtMs: kept.heardAtMs, bareAtMs: kept.bareAtMs };
  });

/** The relay lets its pages talk to nobody but itself; the baseline's server is somebody else. */
const letTalkToAnyone = async ({ context, page }: Tablet): Promise<void> => {
  const devTools = await context.newCDPSession(page);
  await devTools.send('Page.setBypassCSP', { enabled: true });
  await page.reload();
};

const callToFlags = async (browser: Browser, relay: RelayProcess, bareUrl: string) => {
  const leader = await join(browser, relay.link('leader'), { name: 'Ines', instrument: 'Guitar' });
  const stands: Tablet[] = [];
  for (const name of ['Tomas', 'Bea', 'Joon']) {
    stands.push(await join(browser, relay.link('reader'), { name, instrument: 'Tenor sax' }));
  }
  await Promise.all([leader, ...stands].map(letTalkToAnyone));
  await Promise.all([leader, ...stands].map((tablet) => goTo(tablet, 'Stand')));
  const chart = await leader.page.evaluate(async (tempoBpm) => {
    const board = window.tillcue?.board;
    while (board?.bookHere.get() === false) await new Promise((done) => setTimeout(done, 20));
    const found = board?.book.get().charts.find(({ title }) => title === 'Ropewalk');
    if (board === undefined || found === undefined) throw new Error('no Ropewalk in the book');
    const called = await board.call({ kind: 'callTune', chart: found.id, tempoBpm });
    if (!called.ok) throw new Error(called.error.words);
    while (board.stage.get().take === null) await new Promise((done) => setTimeout(done, 20));
    const solos = board.stage.get().take?.road.legs.find(({ name }) => name === 'Solos');
    if (solos === undefined) throw new Error('Ropewalk has no leg called Solos');
    const started = await board.call({ kind: 'start', leg: solos.id, barIndex: 0 });
    if (!started.ok) throw new Error(started.error.words);
    return found.id;
  }, SLOW_BPM);
  for (const { page } of stands) await page.locator('main.stand[data-state="playing"]').waitFor();
  await Promise.all(stands.map((stand) => watchFlags(stand, bareUrl)));
  const bare = await leader.page.evaluateHandle(
    (url) =>
      new Promise<WebSocket>((done, failed) => {
        const socket = new WebSocket(url);
        socket.onopen = () => done(socket);
        socket.onerror = () => failed(new Error(`no connection to ${url}`));
      }),
    bareUrl,
  );
  const calledAtMs: number[] = [];
  const bareSentAtMs: number[] = [];
  for (let nth = 0; nth < FLAGS; nth++) {
    const { atMs, id } = await leader.page.evaluate(async () => {
      const board = window.tillcue?.board;
      const atMs = performance.timeOrigin + performance.now();
      const called = await board?.call({ kind: 'lastChorus' });
      if (!called?.ok) throw new Error(called?.error.words ?? 'no board');
      return { atMs, id: called.value.id };
    });
    calledAtMs.push(atMs);
    const flags = stands.map(({ page }) => page.locator('.stand .flag[data-kind="lastChorus"]').first());
    await Promise.all(flags.map((flag) => flag.waitFor()));
    await leader.page.evaluate((cue) => window.tillcue?.board.takeBack(cue), id);
    await Promise.all(flags.map((flag) => flag.waitFor({ state: 'detached' })));
    await pause(100);
    bareSentAtMs.push(
      await bare.evaluate((socket, bytes) => {
        const atMs = performance.timeOrigin + performance.now();
        socket.send('.'.repeat(bytes));
        return atMs;
      }, BARE_BYTES),
    );
    // Away from the rhythm of the frames, or every call would meet the same part of one.
    await pause(100 + ((nth * 7) % 17));
  }
  const seen = await Promise.all(stands.map(seenBy));
  const since = (times: readonly number[], fromMs: readonly number[]) => {
    if (times.length !== FLAGS) throw new Error(`${times.length} of ${FLAGS} came to a stand`);
    return times.map((at, nth) => at - (fromMs[nth] ?? Number.NaN));
  };
  return {
    chart,
    heardMs: seen.flatMap(({ heardAtMs }) => since(heardAtMs, calledAtMs)),
    flagMs: seen.flatMap(({ flagsAtMs }) => since(flagsAtMs, calledAtMs)),
    bareMs: seen.flatMap(({ bareAtMs }) => since(bareAtMs, bareSentAtMs)),
  };
};

/** Calls the tune anew; one that is still playing is stopped first, which takes until its bar line. */
const callTune = async ({ ask }: Readers, id: string, chart: string): Promise<void> => {
  const say = (name: string, cue: object) => ask(JSON.stringify({ t: 'call', id: `${id}-${name}`, cue }));
  for (let tries = 0; tries < 60; tries++) {
    const answer = await say(`call-${tries}`, { kind: 'callTune', chart });
    if (answer.includes('"called"')) return;
    if (tries === 0) await say('stop', { kind: 'stop' });
    await pause(100);
  }
  throw new Error('the tune before would not stop');
};

const sendBare = (readers: Readers, id: string) => readers.send(id, id.padEnd(BARE_BYTES, '.'));

/** Both ways in turns, a take at a time, so that what else the machine does meets them alike. */
const printCrowd = async (
  print: Print,
  relay: RelayProcess,
  bareUrl: string,
  chart: string,
  count: number,
) => {
  const [, band, leaderKey] = /#join\/([^/]+)\/(.+)$/.exec(relay.link('leader')) ?? [];
  const [, , readerKey] = /#join\/([^/]+)\/(.+)$/.exec(relay.link('reader')) ?? [];
  const host = `ws://127.0.0.1:${relay.port}`;
  const ours = await openReaders(
    `${host}/live/${band}?key=${leaderKey}`,
    `${host}/sync/${band}/stage?key=${readerKey}`,
    count,
  );
  const bare = await openReaders(bareUrl, bareUrl, count);
  const oursMs: number[] = [];
  const bareMs: number[] = [];
  const call = (id: string, cue: object) => ours.send(id, JSON.stringify({ t: 'call', id, cue }));
  try {
    for (let take = 0; take * CUES_A_TAKE < CUES; take++) {
      await callTune(ours, `tune-${count}-${take}`, chart);
      for (let nth = 0; nth < CUES_A_TAKE; nth++) {
        const id = `cue-${count}-${take}-${nth}`;
        oursMs.push(...(await call(id, { kind: 'tempo', bpm: 100 + nth })));
        await pause(25);
        bareMs.push(...(await sendBare(bare, id)));
      }
    }
  } finally {
    ours.close();
    bare.close();
  }
  print('');
  print(`call to the stage document, ${count} readers: ${p50p99(oursMs)} (${CUES} cues)`);
  print(`baseline: bare ws broadcast, ${count} readers: ${p50p99(bareMs)}`);
  const middle = quantile(oursMs, 0.5) / quantile(bareMs, 0.5);
  const far = quantile(oursMs, 0.99) / quantile(bareMs, 0.99);
  const above = quantile(oursMs, 0.99) - quantile(bareMs, 0.99);
  print(
    count < 50
      ? `  goal: p99 ≤ bare + 3 ms: + ${above.toFixed(2)} ms ${verdict(above <= 3)}; ratios ${middle.toFixed(2)}, ${far.toFixed(2)}`
      : `  goal: p50 ≤ 1.15× bare: ${middle.toFixed(2)} ${verdict(middle <= 1.15)}, p99 ≤ 1.6×: ${far.toFixed(2)} ${verdict(far <= 1.6)}`,
  );
};
