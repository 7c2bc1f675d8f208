import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { build } from 'vite';
import type { Print } from './main.ts';

/** Script without sound, kB of gzip (1000 bytes). */
const BUDGET_KB = 150;

/** As the relay sends it. */
const gzipKb = (script: string | Uint8Array): number => gzipSync(script, { level: 9 }).length / 1000;

const named = (folder: string, name: string): string => {
  const file = readdirSync(folder).find((one) => new RegExp(`^${name}-[\\w-]{8}\\.js$`).test(one));
  if (file === undefined) throw new Error(`the build has no script called ${name}`);
  return file;
};

/** A script and all it imports at once; what it imports later, for another view, is left out. */
const withImports = (folder: string, file: string, seen = new Set<string>()): Set<string> => {
  if (seen.has(file)) return seen;
  seen.add(file);
  const text = readFileSync(join(folder, file), 'utf8');
  for (const [, imported] of text.matchAll(/(?:from|import)\s*["'`]\.\/([\w.-]+\.js)["'`]/g)) {
    if (imported !== undefined) withImports(folder, imported, seen);
  }
  return seen;
};

const BASELINE = '\0react-alone';

/** What a page weighs that only draws an empty root, built the same way. */
const reactAloneKb = async (): Promise<number> => {
  const built = await build({
    configFile: false,
    logLevel: 'silent',
    build: { write: false, modulePreload: false, rolldownOptions: { input: BASELINE } },
    plugins: [
      {
        name: 'react-alone',
        resolveId: (id) => (id === BASELINE ? id : null),
        load: (id) =>
          id === BASELINE
            ? `import { createElement } from 'react';
               import { createRoot } from 'react-dom/client';
               createRoot(document.body).render(createElement('p'));`
            : null,
      },
    ],
  });
  if (Array.isArray(built) || !('output' in built)) throw new Error('the baseline was not built');
  return built.output.reduce((sum, part) => sum + (part.type === 'chunk' ? gzipKb(part.code) : 0), 0);
};

/** Script that a reading tablet loads before its stand shows, of a fresh production build. */
export const run = async (print: Print): Promise<void> => {
  const folder = mkdtempSync(join(tmpdir(), 'tillcue-build-'));
  const inherited = process.env['NODE_ENV'];
  // A build that inherits another one bundles the React for development.
  process.env['NODE_ENV'] = 'production';
  try {
    await build({ logLevel: 'silent', build: { outDir: folder } });
    const assets = join(folder, 'assets');
    const needed = new Set<string>();
    for (const entry of ['index', 'band-page']) withImports(assets, named(assets, entry), needed);
    let total = 0;
    for (const file of needed) {
      const size = gzipKb(readFileSync(join(assets, file)));
      total += size;
      print(`${size.toFixed(1).padStart(8)} kB  ${file}`);
    }
    const react = await reactAloneKb();
    print(
      `${total.toFixed(1).padStart(8)} kB  all of the reading view; budget ≤ ${BUDGET_KB} kB ${total <= BUDGET_KB ? '(met)' : '(MISSED)'}`,
    );
    print(
      `${react.toFixed(1).padStart(8)} kB  baseline: react + react-dom alone; ratio ${(total / react).toFixed(2)}`,
    );
  } finally {
    if (inherited === undefined) delete process.env['NODE_ENV'];
    else process.env['NODE_ENV'] = inherited;
    rmSync(folder, { recursive: true, force: true });
  }
};
