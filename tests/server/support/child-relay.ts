import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import { afterAll, beforeAll } from 'vitest';
import { afterThis } from './test-relay.ts';

const root = fileURLToPath(new URL('../../../', import.meta.url));

export interface ChildRelay {
  readonly http: string;
  readonly ws: string;
  /** Sends the signal; gives the exit code, null where the signal ended it. */
  readonly end: (signal: 'SIGTERM' | 'SIGKILL') => Promise<number | null>;
}

/** Builds the relay once for a test file; gives what starts one on a folder. */
export const childRelays = (): ((data: string) => Promise<ChildRelay>) => {
  let program = '';
  beforeAll(async () => {
    // Inside the repository, where the program finds libsql.
    const cache = join(root, 'node_modules/.cache');
    mkdirSync(cache, { recursive: true });
    const outDir = mkdtempSync(join(cache, 'relay-'));
    await build({
      root,
      configFile: false,
      logLevel: 'error',
      build: {
        ssr: 'tests/server/support/relay-child.ts',
        outDir,
        emptyOutDir: true,
        target: 'node20',
        rollupOptions: { shimMissingExports: true },
      },
      ssr: { noExternal: true, external: ['libsql'] },
    });
    program = join(outDir, 'relay-child.js');
    afterAll(() => rmSync(outDir, { recursive: true, force: true }));
  }, 60_000);
  return async (data) => {
    const child: ChildProcess = spawn(process.execPath, [program, data], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    const [line] = (await once(child.stdout ?? child, 'data')) as [Buffer];
    const port = Number(line.toString());
    const end = async (signal: 'SIGTERM' | 'SIGKILL') => {
      if (child.exitCode !== null || child.signalCode !== null) return child.exitCode;
      const ended = once(child, 'exit');
      child.kill(signal);
      const [code] = (await ended) as [number | null];
      return code;
    };
    afterThis(async () => void (await end('SIGKILL')));
    return { http: `http://127.0.0.1:${port}`, ws: `ws://127.0.0.1:${port}`, end };
  };
};
