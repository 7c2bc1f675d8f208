import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { expect, it } from 'vitest';
import { ROOT } from './source-files.ts';

const run = promisify(execFile);

interface Issues {
  readonly issues: readonly ({ readonly file: string } & Record<string, unknown>)[];
}

// What counts is in knip.json: files, exports and dependencies, not types.
it('nothing is left over: no file, export or dependency that nobody uses', async () => {
  const knip = join(ROOT, 'node_modules/knip/bin/knip.js');
  const { stdout } = await run(
    process.execPath,
    [knip, '--no-progress', '--no-config-hints', '--no-exit-code', '--reporter', 'json'],
    { cwd: ROOT, maxBuffer: 1 << 24 },
  );
  const { issues } = JSON.parse(stdout) as Issues;
  const leftOver = issues.flatMap(({ file, ...kinds }) =>
    Object.entries(kinds).flatMap(([kind, some]) =>
      Array.isArray(some) ? some.map((one: { name?: string }) => `${kind}: ${file} ${one.name ?? ''}`) : [],
    ),
  );
  expect(leftOver).toEqual([]);
}, 60_000);
