import { describe, expect, it } from 'vitest';
import { chartLines } from '../../../client/stand/chart-lines.ts';
import type { BarMusic, Mark } from '../../../common/chart/bar-music.ts';
import type { Bar, Chart } from '../../../common/chart/chart.ts';

const bar = (id: string, lineEnd = false): Bar => ({
  id,
  text: 'F7',
  left: '',
  right: '',
  ending: '',
  lineEnd,
});
const music = (mark?: Mark, pickUp = false): BarMusic => ({
  metre: { text: '4/4', upper: 4, lower: 4, pulses: 4, groups: [4], compound: false },
  pulses: pickUp ? 1 : 4,
  pickUp,
  cells: [],
  words: mark === undefined ? [] : [{ text: mark.kind, atPulse: 0, mark }],
  key: '',
});
const chart = (...sections: { label: string; bars: Bar[] }[]): Chart => ({
  head: {},
  sections: sections.map((section, at) => ({ id: `s${at}`, ...section })),
  road: [],
  lines: [],
});

describe('the lines of the page', () => {
  it('end where the writer’s do and at the end of a section', () => {
    const lines = chartLines(
      chart({ label: 'A', bars: [bar('a', true), bar('b'), bar('c')] }, { label: 'B', bars: [bar('d')] }),
      new Map(['a', 'b', 'c', 'd'].map((id) => [id, music()])),
    );
    expect(lines.map((line) => [line.letter, line.bars.map((one) => one.bar.id).join('')])).toEqual([
      ['A', 'a'],
      [undefined, 'bc'],
      ['B', 'd'],
    ]);
  });

  it('number the bars through the chart, a pick-up 0', () => {
    const lines = chartLines(
      chart({ label: '', bars: [bar('p'), bar('a')] }, { label: 'B', bars: [bar('b')] }),
      new Map([
        ['p', music(undefined, true)],
        ['a', music()],
        ['b', music()],
      ]),
    );
    expect(lines.flatMap((line) => line.bars.map((one) => one.number))).toEqual([0, 1, 2]);
    expect(lines[0]?.letter).toBeUndefined();
  });

  it('show a written break for as many bars as it lasts', () => {
    const ids = ['a', 'b', 'c', 'd'];
    const lines = chartLines(
      chart({ label: 'A', bars: ids.map((id) => bar(id)) }),
      new Map(ids.map((id) => [id, music(id === 'b' ? { kind: 'break', bars: 2 } : undefined)])),
    );
    expect(lines[0]?.bars.map((one) => one.out)).toEqual([undefined, 'hit', 'out', undefined]);
  });
});
