import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { filesUnder, isSource, textOf } from './source-files.ts';

const ID = /\[([A-Z]+-\d+)\]/g;

/** Ids of the lines `- [STAGE-3] …` of a RULES.md. */
const idsOfRules = (text: string): string[] =>
  [...text.matchAll(/^- \[([A-Z]+-\d+)\] \S/gm)].map((match) => match[1] ?? '');

/** Ids in the names of the tests of a file: `it('[STAGE-3] …')`, `it.each(…)('[STAGE-3] …')`, `describe` likewise. */
const idsOfTests = (path: string, text: string): string[] => {
  const ids: string[] = [];
  const kind = path.endsWith('x') ? ts.ScriptKind.TSX : ts.ScriptKind.TS;
  const visit = (node: ts.Node): void => {
    if (ts.isCallExpression(node) && /^(it|test|describe)\b/.test(node.expression.getText())) {
      const name = node.arguments[0];
      if (name !== undefined && (ts.isStringLiteralLike(name) || ts.isTemplateExpression(name))) {
        ids.push(...[...name.getText().matchAll(ID)].map((match) => match[1] ?? ''));
      }
    }
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile(path, text, ts.ScriptTarget.ES2022, true, kind));
  return ids;
};

const ruleFiles = filesUnder('common').filter((path) => path.endsWith('/RULES.md'));
const rules = ruleFiles.flatMap((path) => idsOfRules(textOf(path)).map((id) => ({ id, path })));
const cited = filesUnder('tests')
  .filter((path) => isSource(path) && /\.test\.tsx?$/.test(path) && !path.startsWith('tests/architecture/'))
  .flatMap((path) => idsOfTests(path, textOf(path)).map((id) => ({ id, path })));

describe('the rules beside the code', () => {
  it('are there', () => {
    expect(ruleFiles).toContain('common/stage/RULES.md');
    expect(rules.length).toBeGreaterThan(20);
  });

  it('have ids of their own', () => {
    const seen = new Set<string>();
    const twice = rules.filter(({ id }) => seen.has(id) || !seen.add(id));
    expect(twice).toEqual([]);
  });

  it('are each cited in the name of a test', () => {
    const names = new Set(cited.map(({ id }) => id));
    expect(rules.filter(({ id }) => !names.has(id))).toEqual([]);
  });

  it('are what the names of tests cite', () => {
    const ids = new Set(rules.map(({ id }) => id));
    expect(cited.filter(({ id }) => !ids.has(id))).toEqual([]);
  });

  it('are found in names only, in every form of a test', () => {
    const text = `
      describe('[ONE-1] a', () => {
        it.each([1])('[TWO-2] and [TWO-3] %s', () => { expect('[NOT-1]').toBe(1); });
        test(\`[THREE-3] \${x}\`, () => {}); // [NOT-2]
      });`;
    expect(idsOfTests('x.ts', text)).toEqual(['ONE-1', 'TWO-2', 'TWO-3', 'THREE-3']);
    expect(idsOfRules('- [ONE-1] so\ntext [ONE-2]\n- [ONE-3] and so')).toEqual(['ONE-1', 'ONE-3']);
  });
});
