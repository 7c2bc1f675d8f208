import { describe, expect, it } from 'vitest';
import { type Mend, mended, mendFor, writeMend } from '../../../client/pencil/mend.ts';
import type { Chart } from '../../../common/chart/chart.ts';
import { printChart } from '../../../common/chart/print-chart.ts';
import { problemsOf } from '../../../common/form/to-look-at.ts';
import { openChart } from './open-chart.ts';

const mendOf = (chart: Chart, kind: string): Mend | null => {
  const all = problemsOf(chart);
  const problem = all.find((one) => one.kind === kind);
  if (problem === undefined) throw new Error(`no ${kind} among ${all.map((one) => one.kind).join(', ')}`);
  return mendFor(chart, problem, all);
};

/** Takes the suggestion of the first problem of a kind: the chart as text, before and after. */
const take = async (text: string, kind: string): Promise<string> => {
  const { ines } = await openChart(text);
  const chart = ines.chart();
  const mend = mendOf(chart, kind);
  if (mend === null) throw new Error(`${kind} offers nothing`);
  const before = printChart(chart);
  writeMend(ines.handle, chart, mend);
  const after = printChart(ines.chart());
  expect(after).toBe(printChart(mended(chart, mend)));
  ines.handle.undo();
  expect(printChart(ines.chart())).toBe(before);
  expect(ines.handle.undoState.get().canUndo).toBe(false);
  return after;
};

describe('a suggestion taken', () => {
  it.each([
    ['unknown-key', 'key: eb blues\n\n[A]\n| C |\n', 'key: Eb blues\n\n[A]\n| C |\n'],
    ['bad-metre', 'time: 5/4 (3+3)\n\n[A]\n| C |\n', 'time: 5/4\n\n[A]\n| C |\n'],
    ['bad-tempo', 'tempo: about 108\n\n[A]\n| C |\n', 'tempo: 108\n\n[A]\n| C |\n'],
    ['bad-count', 'count: 2 bars\n\n[A]\n| C |\n', 'count: 2\n\n[A]\n| C |\n'],
    ['section-twice', '[A]\n| C |\n[A]\n| F |\n', '[A]\n| C |\n[A2]\n| F |\n'],
    ['repeat-times', '[A]\n|: C :|x1\n', '[A]\n|: C :|\n'],
    ['ending-twice', '[A]\n|: C |1. F :|1. G :|\n', '[A]\n|: C |1. F :|2. G :|\n'],
    ['unknown-chord', '[A]\n| "fill" am7 D7 |\n', '[A]\n| "fill" Am7 D7 |\n'],
    ['unknown-chord', '[A]\n|: C |1 F :|2. G |\n', '[A]\n|: C |1. F :|2. G |\n'],
    ['near-miss', '[A]\n| "brake" C r r r |\n', '[A]\n| "break" C r r r |\n'],
    ['unclosed-quote', '[A]\n| "soft C7 | F7 |\n', '[A]\n| "soft" C7 | F7        |\n'],
    ['too-many-pulses', '[A]\n| Am7 / / / / |\n', '[A]\n| Am7 / / / |\n'],
    ['too-few-pulses', '[A]\n| Am7 / |\n', '[A]\n| Am7 / / / |\n'],
    ['empty-bar', '[A]\n| C |  |\n', '[A]\n| C | % |\n'],
    ['unknown-header', 'tempoo: 108\n\n[A]\n| C |\n', 'tempo: 108\n\n[A]\n| C |\n'],
    ['unreadable-line', '[A]\n| C |\nF7 Bb7\n', '[A]\n| C      |\n| F7 Bb7 |\n'],
    ['unreadable-line', '[A]\n| C |\nslower here\n', '[A]\n| C |\nnote: slower here\n'],
    ['unknown-road-word', '[A]\n| C |\n\nroad:\n  Solos: A opne\n', '[A]\n| C |\n\nroad:\n  Solos: A open\n'],
    [
      'sections-run-together',
      '[A]\n| C |\n[B]\n| F |\n\nroad:\n  Head: AAB\n',
      '[A]\n| C |\n[B]\n| F |\n\nroad:\n  Head: A A B\n',
    ],
    [
      'times-in-the-middle',
      '[A]\n| C |\n[B]\n| F |\n\nroad:\n  Head: A x2 B\n',
      '[A]\n| C |\n[B]\n| F |\n\nroad:\n  Head: A A B\n',
    ],
    ['times-out-of-range', '[A]\n| C |\n\nroad:\n  Head: A x0\n', '[A]\n| C |\n\nroad:\n  Head: A x2\n'],
    [
      'tag-once',
      '[A]\n| C |\n\nroad:\n  Head: A\n  Tag: last 1 x1\n',
      '[A]\n| C |\n\nroad:\n  Head: A\n  Tag: last 1 x3\n',
    ],
    [
      'no-section-named',
      '[Vamp]\n| C |\n\nroad:\n  In: vamp\n',
      '[Vamp]\n| C |\n\nroad:\n  In: [Vamp] vamp\n',
    ],
    [
      'unclosed-quote',
      '[A]\n| C |\n\nroad:\n  Head: A "guitar\n',
      '[A]\n| C |\n\nroad:\n  Head: A "guitar"\n',
    ],
  ])('mends %s in one step: %s', async (kind, text, wanted) => {
    expect(await take(text, kind)).toBe(wanted);
  });

  it('is not offered where it only shows how such a thing is written', async () => {
    const { ines } = await openChart('[A]\n| C |\nroad:\n  what we said\n');
    expect(mendOf(ines.chart(), 'unreadable-road-line')).toBeNull();
  });

  it('keeps what others write meanwhile', async () => {
    const { ines, tomas } = await openChart('[A]\n| C | F |\nG7 C7\n');
    const chart = ines.chart();
    const mend = mendOf(chart, 'unreadable-line');
    tomas.editing.open(tomas.bar(0));
    tomas.editing.type('C9');
    tomas.editing.write();
    if (mend) writeMend(ines.handle, chart, mend);
    expect(ines.texts()[0]).toBe('C9 F G7 C7');
  });
});
