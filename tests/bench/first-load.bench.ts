import { readdirSync, readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import type { Print } from './main.ts';

const ASSETS = 'dist/client/assets';
/** Without sound, kB of gzip: `first load` in the issue that set it. */
const BUDGET_KB = 150;

const gzipKb = (bytes: Buffer): number => gzipSync(bytes).length / 1000;
const scripts = (): string[] => readdirSync(ASSETS).filter((file) => file.endsWith('.js'));
const named = (name: string): string => {
  const file = scripts().find((candidate) => new RegExp(`^${name}-[\\w-]{8}\\.js$`).test(candidate));
  if (file === undefined) throw new Error(`no script ${name} in ${ASSETS}: run npm run build first`);
  return file;
};

/** A script and all it imports at once; what it imports later, for another view, is left out. */
const withImports = (file: string, seen = new Set<string>()): Set<string> => {
  if (seen.has(file)) return seen;
  seen.add(file);
  const text = readFileSync(`${ASSETS}/${file}`, 'utf8');
  for (const [, imported] of text.matchAll(/(?:from|import)\s*["']\.\/([\w.-]+\.js)["']/g)) {
    if (imported !== undefined) withImports(imported, seen);
  }
  return seen;
};

/** Script that a reading tablet loads before its stand shows: gzip, against react and react-dom alone. */
export const run = (print: Print): void => {
  const needed = new Set<string>();
  for (const entry of ['index', 'band-page']) withImports(named(entry), needed);
  let total = 0;
  for (const file of needed) {
    const size = gzipKb(readFileSync(`${ASSETS}/${file}`));
    total += size;
    print(`${size.toFixed(1).padStart(8)} kB  ${file}`);
  }
  const react = ['react/cjs/react.production.js', 'react-dom/cjs/react-dom-client.production.js']
    .map((file) => gzipKb(readFileSync(`node_modules/${file}`)))
    .reduce((sum, size) => sum + size, 0);
  print(`${total.toFixed(1).padStart(8)} kB  all of the reading view (budget ${BUDGET_KB} kB)`);
  print(
    `${react.toFixed(1).padStart(8)} kB  baseline: react + react-dom alone; ratio ${(total / react).toFixed(2)}`,
  );
};
