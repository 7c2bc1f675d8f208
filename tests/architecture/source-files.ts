import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('../..', import.meta.url));

const NOT_OURS = new Set(['node_modules', 'dist', 'data', '.git']);

/** Paths of all files of the repository under a folder (the whole by default), from its root, with `/`, sorted. */
export const filesUnder = (folder = '.'): string[] => {
  const walk = (directory: string): string[] =>
    readdirSync(directory).flatMap((name) => {
      if (NOT_OURS.has(name)) return [];
      const path = join(directory, name);
      return statSync(path).isDirectory() ? walk(path) : [relative(ROOT, path).split(sep).join('/')];
    });
  return walk(join(ROOT, folder)).sort();
};

export const textOf = (path: string): string => readFileSync(join(ROOT, path), 'utf8');

export const isSource = (path: string): boolean => /\.tsx?$/.test(path) && !path.endsWith('.d.ts');
