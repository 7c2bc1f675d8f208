import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { lockData } from '../../server/data-lock.ts';
import { childRelays } from './support/child-relay.ts';
import { testData } from './support/test-relay.ts';

const startRelay = childRelays();

it('lets one at a time into a folder, and the next one when it has let go', () => {
  const data = testData();
  const unlock = lockData(data);
  expect(() => lockData(data)).toThrow(/Another relay works in the folder/);
  unlock();
  lockData(data)();
});

it('is let go by a relay that was killed, whoever has the number of its process now', async () => {
  const data = testData();
  const relay = await startRelay(data);
  expect(() => lockData(data)).toThrow(/Another relay works in the folder/);
  await relay.end('SIGKILL');
  // As after a power cut: the number is that of a process that runs, and no relay.
  writeFileSync(join(data, 'relay.pid'), `${process.ppid}`);
  lockData(data)();
});
