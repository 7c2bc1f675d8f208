import { describe, expect, it } from 'vitest';
import { filesUnder, textOf } from './source-files.ts';

const files = filesUnder().filter((path) => path !== 'package-lock.json');
const isText = (path: string) =>
  /\.(tsx?|m?js|css|html|json|md|svg|ya?ml|txt)$|^\.ci\/|^\.[a-z]+$/.test(path);

const found = (paths: readonly string[], pattern: RegExp): string[] =>
  paths.flatMap((path) =>
    textOf(path)
      .split('\n')
      .flatMap((line, i) => (pattern.test(line) ? [`${path}:${i + 1} ${line.trim().slice(0, 80)}`] : [])),
  );

// Put together from pieces, so that this file does not find itself.
const MACHINE_PATH = new RegExp(
  `(^|[\\s'"\`=:])/(${['work', 'tmp', 'home', 'root', 'Users'].join('|')})/|\\.\\./shared/|[A-Z]:\\\\\\\\`,
);

describe('the repository is complete in itself', () => {
  it('names no path of somebody’s machine', () => {
    expect(found(files.filter(isText), MACHINE_PATH)).toEqual([]);
    expect(`open('${['', 'work', 'x'].join('/')}')`).toMatch(MACHINE_PATH);
    expect("from '../shared-time.ts'").not.toMatch(MACHINE_PATH);
  });

  it('carries no font files: they come from packages', () => {
    expect(files.filter((path) => /\.(woff2?|ttf|otf|eot)$/i.test(path))).toEqual([]);
  });

  it('loads nothing from other hosts: a rehearsal room has no internet', () => {
    const pages = files.filter((path) => path.startsWith('client/') && /\.(css|html|tsx?)$/.test(path));
    const remote =
      /(url\(\s*['"]?|@import\s+['"]|src=\{?['"]|href=\{?['"]|from ['"]|import\(['"])(https?:)?\/\//;
    expect(found(pages, remote)).toEqual([]);
    expect('@import "https://fonts.example/x.css"').toMatch(remote);
  });
});
