import { cruise, type ICruiseResult } from 'dependency-cruiser';
import { beforeAll, describe, expect, it } from 'vitest';
import { IMPORT_RULES } from './import-rules.ts';
import { ROOT } from './source-files.ts';

let result: ICruiseResult;

beforeAll(async () => {
  const { output } = await cruise(
    ['client', 'common', 'server'],
    {
      baseDir: ROOT,
      ruleSet: { forbidden: [...IMPORT_RULES] },
      validate: true,
      doNotFollow: { path: 'node_modules' },
      tsPreCompilationDeps: true,
      moduleSystems: ['es6'],
    },
    {
      extensions: ['.ts', '.tsx', '.js', '.mjs', '.css'],
      exportsFields: ['exports'],
      conditionNames: ['import', 'types', 'default'],
    },
  );
  if (typeof output === 'string') throw new Error(`expected a result, got text: ${output.slice(0, 200)}`);
  result = output;
}, 60_000);

describe('imports', () => {
  it('are read at all: TypeScript files with their types’ imports', () => {
    const wired = result.modules.find(({ source }) => source === 'client/app/wiring.ts');
    expect(wired?.dependencies.map(({ resolved }) => resolved)).toContain('client/net/shared-clock.ts');
    const typesOnly = result.modules.find(({ source }) => source === 'common/clock/exchange.ts');
    expect(typesOnly?.dependencies.map(({ resolved }) => resolved)).toEqual(['common/units.ts']);
    expect(result.summary.totalCruised).toBeGreaterThan(150);
  });

  it.each(IMPORT_RULES.map((rule) => [rule.name ?? '', rule.comment ?? '']))('%s', (name, comment) => {
    const broken = result.summary.violations
      .filter(({ rule }) => rule.name === name)
      .map(({ from, to, cycle }) => [from, ...(cycle?.map((step) => step.name) ?? [to])].join(' → '));
    expect(broken, comment).toEqual([]);
  });
});
