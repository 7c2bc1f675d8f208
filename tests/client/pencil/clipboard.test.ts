import { describe, expect, it } from 'vitest';
import { copyText, pasteText } from '../../../client/pencil/clipboard.ts';
import { openChart } from './open-chart.ts';

describe('bars taken along as text', () => {
  it('are lines of music with their signs', async () => {
    const { ines } = await openChart('[A]\n|: C7 | F7 :|x3\n| "fill" G7 | C7 |\n[B]\n| A7 |]\n');
    expect(copyText(ines.chart(), [1, 2, 3, 4].map(ines.bar))).toBe('| F7 :|x3\n| "fill" G7 | C7 |\n| A7 |]');
  });

  it('come back as the same bars, in this chart or another', async () => {
    const { ines } = await openChart('[A]\n|: C7 | F7 :|x3\n');
    const text = copyText(ines.chart(), [0, 1].map(ines.bar));
    const bars = pasteText(ines.handle, ines.chart(), ines.bar(1), text);
    expect(bars).toEqual([2, 3].map(ines.bar));
    expect(ines.music()).toBe('[A]\n|: C7 | F7 :|x3\n|: C7 | F7 :|x3\n');
    const { ines: other } = await openChart('title: Ropewalk\n');
    pasteText(other.handle, other.chart(), null, text);
    expect(other.music()).toBe('[A]\n|: C7 | F7 :|x3\n');
    ines.handle.undo();
    expect(ines.music()).toBe('[A]\n|: C7 | F7 :|x3\n');
  });

  it('may bring sections, or be a chord alone, or nothing', async () => {
    const { ines } = await openChart('[A]\n| C7 | F7 |\n');
    pasteText(ines.handle, ines.chart(), ines.bar(0), '| G7 |\n[Bridge]\n| A7 | D7 |\n| G7 |');
    expect(ines.music()).toBe('[A]\n| C7 | G7 | F7 |\n[Bridge]\n| A7 | D7 |\n| G7 |\n');
    pasteText(ines.handle, ines.chart(), ines.bar(0), 'Bb7');
    expect(ines.texts()[0]).toBe('C7 Bb7 G7 F7');
    expect(pasteText(ines.handle, ines.chart(), ines.bar(0), ' \n')).toEqual([]);
  });
});
