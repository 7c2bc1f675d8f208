import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach } from 'vitest';
import type { Role } from '../../../common/protocol/roles.ts';
import { createLog } from '../../../server/log.ts';
import { openRelay, type Relay, type RelayParts } from '../../../server/relay.ts';

/** A relay in this process, on a port and a folder of its own. */
export interface TestRelay extends Relay {
  readonly http: string;
  readonly ws: string;
  readonly data: string;
  /** Lines of its log so far. */
  readonly logged: readonly string[];
}

const cleanups: (() => Promise<void>)[] = [];
afterEach(async () => {
  for (const clean of cleanups.splice(0).reverse()) await clean();
});

/** Runs after the test, last added first. */
export const afterThis = (clean: () => Promise<void>) => cleanups.push(clean);

export const testData = (): string => {
  const data = mkdtempSync(join(tmpdir(), 'tillcue-relay-'));
  afterThis(async () => rmSync(data, { recursive: true, force: true }));
  return data;
};

export const testRelay = async (
  parts: Partial<RelayParts> & { readonly data?: string } = {},
): Promise<TestRelay> => {
  const data = parts.data ?? testData();
  const logged: string[] = [];
  const relay = await openRelay({
    config: { port: 0, host: '127.0.0.1', data, origins: ['https://board.example'] },
    log: createLog('info', (line) => logged.push(line), Date.now),
    failed: (error) => {
      throw error;
    },
    pages: () => () => false,
    ...parts,
  });
  let open = true;
  const close = async () => {
    if (!open) return;
    open = false;
    await relay.close();
  };
  afterThis(close);
  return {
    ...relay,
    close,
    data,
    logged,
    http: `http://127.0.0.1:${relay.port}`,
    ws: `ws://127.0.0.1:${relay.port}`,
  };
};

export interface TestBand {
  readonly band: string;
  readonly keys: Readonly<Record<Role, string>>;
}

export const makeBand = async (http: string, name = 'Harbour Street Five'): Promise<TestBand> => {
  const response = await fetch(`${http}/api/bands`, { method: 'POST', body: JSON.stringify({ name }) });
  return (await response.json()) as TestBand;
};
