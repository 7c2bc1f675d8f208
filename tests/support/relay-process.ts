import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A built relay in a process of its own, on a data folder of its own that outlives restarts. */
export interface RelayProcess {
  readonly port: number;
  readonly origin: string;
  /** @param machine 'new': its machine was started anew meanwhile */
  readonly start: (machine?: 'same' | 'new') => Promise<void>;
  /** The link that was printed for a role, at this origin or another way to the same relay. */
  readonly link: (role: 'leader' | 'player' | 'reader', origin?: string) => string;
  /** Sends the signal and waits for the end. */
  readonly stop: (signal?: NodeJS.Signals) => Promise<void>;
  /** Stops it and deletes its data. */
  readonly remove: () => Promise<void>;
}

const freePort = async (): Promise<number> => {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const address = server.address();
  server.close();
  if (address === null || typeof address === 'string') throw new Error(`no port: ${address}`);
  return address.port;
};

const answers = async (origin: string): Promise<boolean> => {
  try {
    return (await fetch(`${origin}/health`)).ok;
  } catch {
    // Not listening yet: the caller asks again until its time is up.
    return false;
  }
};

const MACHINE_STARTED_ANEW = ['--import', 'tsx', '--import', './tests/support/machine-started-anew.ts'];

/** @param program what Node runs: the built relay by default */
export const relayProcess = async (
  program: readonly string[] = ['dist/server/main.js'],
): Promise<RelayProcess> => {
  const port = await freePort();
  const data = mkdtempSync(join(tmpdir(), 'tillcue-'));
  const origin = `http://127.0.0.1:${port}`;
  let child: ChildProcess | undefined;
  let printed = '';
  const stop = async (signal: NodeJS.Signals = 'SIGTERM') => {
    if (!child || child.exitCode !== null) return;
    const ended = once(child, 'exit');
    child.kill(signal);
    await ended;
    child = undefined;
  };
  const start = async (machine = 'same') => {
    let said = '';
    const before = machine === 'new' ? MACHINE_STARTED_ANEW : [];
    child = spawn(process.execPath, [...before, ...program, '--port', String(port), '--data', data], {
      stdio: ['ignore', 'pipe', 'pipe'],
      env: { ...process.env, NODE_ENV: 'production' },
    });
    child.stdout?.on('data', (chunk: Buffer) => {
      printed += chunk.toString();
    });
    child.stderr?.on('data', (chunk: Buffer) => {
      said += chunk.toString();
    });
    for (let tries = 0; tries < 200; tries++) {
      if (child.exitCode !== null) throw new Error(`the relay ended at once: ${said}`);
      // The links are printed once it answers.
      if (printed.includes('#join/') && (await answers(origin))) return;
      await new Promise((done) => setTimeout(done, 50));
    }
    throw new Error(`the relay did not answer within 10 s: ${said}`);
  };
  const remove = async () => {
    await stop();
    rmSync(data, { recursive: true, force: true });
  };
  const link = (role: 'leader' | 'player' | 'reader', at = origin) => {
    const heading = { leader: 'For the leader', player: 'For players', reader: 'For readers' }[role];
    const found = /#join\/\S+/.exec(printed.slice(printed.indexOf(heading)));
    if (!found) throw new Error(`no link for the ${role} was printed: ${printed}`);
    return `${at}/${found[0]}`;
  };
  return { port, origin, start, stop, remove, link };
};
