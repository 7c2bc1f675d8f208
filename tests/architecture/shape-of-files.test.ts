import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { filesUnder, isSource, textOf } from './source-files.ts';

const FOLDERS = ['client', 'common', 'server', 'tests'];
const sources = FOLDERS.flatMap((folder) => filesUnder(folder)).filter(isSource);

const parsed = (path: string): ts.SourceFile =>
  ts.createSourceFile(
    path,
    textOf(path),
    ts.ScriptTarget.ES2022,
    true,
    path.endsWith('x') ? ts.ScriptKind.TSX : ts.ScriptKind.TS,
  );

const isDefaultExport = (statement: ts.Statement): boolean =>
  ts.isExportAssignment(statement) ||
  (ts.canHaveModifiers(statement) &&
    (ts.getModifiers(statement) ?? []).some(({ kind }) => kind === ts.SyntaxKind.DefaultKeyword)) ||
  (ts.isExportDeclaration(statement) &&
    statement.exportClause !== undefined &&
    ts.isNamedExports(statement.exportClause) &&
    statement.exportClause.elements.some(({ name }) => name.text === 'default'));

/** Nothing in the file is its own: it only hands on what others export. */
const isBarrel = (file: ts.SourceFile): boolean =>
  file.statements.some(ts.isExportDeclaration) &&
  file.statements.every((one) => ts.isExportDeclaration(one) || ts.isImportDeclaration(one));

describe('the shape of files', () => {
  it('no default exports: a thing has one name everywhere', () => {
    expect(sources.filter((path) => parsed(path).statements.some(isDefaultExport))).toEqual([]);
  });

  it('no barrels: import from the file that has it', () => {
    expect(sources.filter((path) => isBarrel(parsed(path)))).toEqual([]);
  });

  it('names are in kebab case and say what the file is for', () => {
    const vague = /^(utils?|helpers?|types|manager|index|misc|common)([.-]|$)/;
    const named = sources.filter((path) => {
      const name = path.slice(path.lastIndexOf('/') + 1);
      return vague.test(name) || !/^[a-z0-9]+(-[a-z0-9]+)*(\.[a-z]+)*\.tsx?$/.test(name);
    });
    expect(named).toEqual([]);
  });
});

describe('common has no clock and no chance', () => {
  it('compiles without DOM, Node and console', () => {
    const { compilerOptions } = JSON.parse(textOf('common/tsconfig.json')) as {
      compilerOptions: { lib: string[]; types: string[] };
    };
    expect(compilerOptions.lib).toEqual([expect.stringMatching(/^es20\d\d$/)]);
    expect(compilerOptions.types).toEqual([]);
  });

  it('reads no date, no random number and no global object: they come in as arguments', () => {
    const found: string[] = [];
    for (const path of sources.filter((one) => one.startsWith('common/'))) {
      const visit = (node: ts.Node): void => {
        if (isImpure(node)) found.push(`${path}: ${node.parent.getText().slice(0, 60)}`);
        ts.forEachChild(node, visit);
      };
      visit(parsed(path));
    }
    expect(found).toEqual([]);
  });

  it.each([
    ['const now = Date.now();', true],
    ['const dice = Math.random();', true],
    ['const all = globalThis.performance;', true],
    ["const { random } = Math; // and Math['random']", true],
    ['declare const console: { log(x: string): void }; console.log("x");', true],
    ['const at = event.Date + Math.max(1, 2);', false],
    ['const performance = perform(take); locate(performance, 0);', false],
  ])('and this test would find it: %s', (text, impure) => {
    const file = ts.createSourceFile('x.ts', text, ts.ScriptTarget.ES2022, true);
    let found = false;
    const visit = (node: ts.Node): void => {
      found ||= isImpure(node);
      ts.forEachChild(node, visit);
    };
    visit(file);
    expect(found).toBe(impure);
  });
});

const IMPURE = new Set([
  'Date',
  'globalThis',
  'console',
  'process',
  'crypto',
  'eval',
  'setTimeout',
  'setInterval',
]);

const isImpure = (node: ts.Node): boolean => {
  if (!ts.isIdentifier(node)) return false;
  const { parent } = node;
  const isProperty =
    (ts.isPropertyAccessExpression(parent) && parent.name === node) ||
    (ts.isPropertyAssignment(parent) && parent.name === node) ||
    (ts.isPropertySignature(parent) && parent.name === node);
  if (isProperty) return false;
  if (node.text !== 'Math') return IMPURE.has(node.text);
  // `Math.max` and the like are pure; whatever else is done with `Math` might reach its random numbers.
  return !(
    ts.isPropertyAccessExpression(parent) &&
    parent.expression === node &&
    parent.name.text !== 'random'
  );
};
