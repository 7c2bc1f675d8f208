import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import { fileURLToPath } from 'node:url';
import { INSTRUMENTS } from '../../common/theory/instruments.ts';
import { seededRandom } from '../support/seeded-random.ts';
import { delayedSockets, type Link, randomLink } from './band/delayed-socket.ts';
import { type Played, playTune } from './band/play-tune.ts';
import { randomTune } from './band/random-tune.ts';
import { openVirtualTablet, type VirtualTablet } from './band/virtual-tablet.ts';
import { bareBroadcast } from './cue-readers.ts';
import type { BenchOptions, Print } from './main.ts';
import { quantile } from './quantile.ts';

/** Tablets in each of the bands that play at the same time. */
const SIZES = [3, 3, 3, 4, 4, 4, 5, 5, 5, 6, 6, 8, 8, 10, 12, 16, 20, 50];
const TUNES = 200;
/** Each band has a seed of its own, of so many that belong to the seed of the run. */
const SEEDS = 1000;
/** A band begins when its clocks say that they are as good as this. */
const MOST_ERROR_MS = 20;

const p50p99 = (values: readonly number[]): string =>
  `p50 ${quantile(values, 0.5).toFixed(1)}, p99 ${quantile(values, 0.99).toFixed(1)} ms`;

/** The relay itself, in a process of its own, without pages. */
const startRelay = async (data: string) => {
  const program = fileURLToPath(new URL('../server/support/relay-child.ts', import.meta.url));
  const child = spawn(process.execPath, ['--import', 'tsx', program, data], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const [port] = (await once(child.stdout, 'data')) as [Buffer];
  return { host: `127.0.0.1:${Number(port.toString())}`, end: () => child.kill('SIGKILL') };
};

const makeBand = async (host: string) => {
  const response = await fetch(`http://${host}/api/bands`, {
    method: 'POST',
    body: JSON.stringify({ name: 'Harbour Street Five' }),
  });
  return (await response.json()) as { band: string; keys: { leader: string; player: string } };
};

/** Bands of three to fifty tablets, each with a clock and a link of its own, play whole tunes under random cues. */
export const run = async (print: Print, options: BenchOptions): Promise<void> => {
  const seed = options.seed ?? 1;
  const tunes = options.tunes ?? TUNES;
  const data = mkdtempSync(join(tmpdir(), 'tillcue-band-'));
  const relay = await startRelay(data);
  const bare = await bareBroadcast();
  const links = new Map<string, Link>();
  // Every y-websocket listens for the end of the process.
  process.setMaxListeners(0);
  const given = globalThis.WebSocket;
  const waits = monitorEventLoopDelay({ resolution: 5 });
  waits.enable();
  const sockets = delayedSockets((member) => {
    const link = links.get(member);
    if (!link) throw new Error(`${member} has no link`);
    return link;
  });
  globalThis.WebSocket = sockets as unknown as typeof WebSocket;
  try {
    const each = Math.ceil(tunes / SIZES.length);
    const played = (
      await Promise.all(
        SIZES.map((size, nth) => playInBand(relay.host, bare.url, links, seed * SEEDS + nth, size, each)),
      )
    ).flat();
    report(print, played, seed);
    print(
      `this machine kept the tablets waiting, beyond what they had to do: p99 ${(waits.percentile(99) / 1e6 - 5).toFixed(1)} ms, ` +
        `most ${(waits.max / 1e6 - 5).toFixed(0)} ms; it counts in all of the above`,
    );
  } finally {
    globalThis.WebSocket = given;
    bare.close();
    relay.end();
    rmSync(data, { recursive: true, force: true });
  }
};

interface Tune extends Played {
  readonly size: number;
}

/** One band plays so many tunes, one after the other. */
const playInBand = async (
  host: string,
  bareUrl: string,
  links: Map<string, Link>,
  seed: number,
  size: number,
  tunes: number,
): Promise<Tune[]> => {
  const random = seededRandom(seed);
  const { band, keys } = await makeBand(host);
  const tablets: VirtualTablet[] = Array.from({ length: size }, (_, nth) => {
    const member = `${band}-${nth}`;
    links.set(member, randomLink(random));
    const role = nth === 0 ? 'leader' : 'player';
    const part = INSTRUMENTS[nth % INSTRUMENTS.length]?.id ?? 'other';
    return openVirtualTablet({
      relayUrl: `ws://${host}`,
      bareUrl,
      band,
      role,
      key: keys[role],
      member,
      part,
      random,
    });
  });
  const played: Tune[] = [];
  try {
    while (
      tablets.some(({ board }) => (board.clock.get().errorMs ?? Number.POSITIVE_INFINITY) > MOST_ERROR_MS)
    )
      await new Promise((done) => setTimeout(done, 50));
    for (let nth = 0; nth < tunes; nth++) {
      const tune = randomTune(random);
      try {
        played.push({ size, ...(await playTune(tablets, `tune-${nth}`, tune, random)) });
      } catch (error) {
        const which = `--seed=${Math.floor(seed / SEEDS)}, ${size} tablets (${seed}), tune ${nth}`;
        throw new Error(`${which}: ${String(error)}\n${tune.text}`);
      }
    }
  } finally {
    for (const tablet of tablets) tablet.close();
  }
  return played;
};

const report = (print: Print, played: readonly Tune[], seed: number): void => {
  const sum = (of: (tune: Tune) => number) => played.reduce((total, tune) => total + of(tune), 0);
  print(
    `${played.length} tunes by ${SIZES.length} bands of ${SIZES[0]} to ${SIZES.at(-1)} tablets (seed ${seed}): ` +
      `${sum(({ called }) => called)} cues, ${sum(({ refused }) => refused)} refused`,
  );
  print(
    `all places agreed after ${sum(({ bars }) => bars)} bars; of the looks taken every 15 ms ` +
      `${sum(({ waits }) => waits.late)} fell between a cue’s first and last stand, ` +
      `${sum(({ waits }) => waits.edge)} on the change of a place`,
  );
  const spreads = played.flatMap(({ spreadMs }) => spreadMs);
  print(
    `first to last tablet that changes to a bar: ${p50p99(spreads)}, most ${Math.max(...spreads).toFixed(1)} ms`,
  );
  for (const [words, holds] of [
    ['3 to 12 tablets', (size: number) => size <= 12],
    ['16 to 50 tablets', (size: number) => size > 12],
  ] as const) {
    const those = played.filter(({ size }) => holds(size));
    const cues = those.flatMap(({ cueMs }) => cueMs);
    const bares = those.flatMap(({ bareMs }) => bareMs);
    print(`call to stand, ${words}: ${p50p99(cues)} (${cues.length})`);
    print(
      `  baseline: a bare broadcast by the same links: ${p50p99(bares)}; ratios ` +
        [0.5, 0.99].map((part) => (quantile(cues, part) / quantile(bares, part)).toFixed(2)).join(', '),
    );
  }
};
