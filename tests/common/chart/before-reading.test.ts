import { describe, expect, it } from 'vitest';
import { readChart } from '../../../common/chart/read-chart.ts';
import { printed, problemsOf, shortBars, shortCells, shortProblems } from './read-for-test.ts';

describe('before reading', () => {
  it('[NOTE-6] drops a byte order mark and takes CRLF, CR and LF for line ends', () => {
    const { chart, problems } = readChart('\ufefftitle: Low Tide\r\nby: Bea\r[A]\n| C |\r\n\r\n| F |');
    expect(problems).toEqual([]);
    expect(chart.head).toEqual({ title: 'Low Tide', by: 'Bea' });
    expect(chart.sections[0]?.bars.map(({ text, lineEnd }) => [text, lineEnd])).toEqual([
      ['C', true],
      ['F', true],
    ]);
  });

  it.each(['\t', '\u00a0', '\u2003', '\u3000', '\u202f', '\u200b', '\u2028'])(
    '[NOTE-7] takes %j for a blank',
    (blank) => {
      const text = `title:${blank}Low Tide${blank}\n${blank}[A]${blank}\n|${blank}C${blank}F${blank}| G |`;
      expect(printed(text)).toBe('title: Low Tide\n\n[A]\n| C F | G   |\n');
    },
  );

  it('[NOTE-8] takes curly quotes for quotes and dashes for hyphens', () => {
    expect(shortBars('| “break 2” C–7 | F—7 | G−7 |')).toEqual(['"break 2" C-7', 'F-7', 'G-7']);
    expect(problemsOf('| “stop–time” C |')).toEqual([]);
    expect(printed('title: Ebb – and “Flow”\n| "soft – then “loud”" C |')).toContain(
      'title: Ebb – and “Flow”',
    );
    expect(printed('| "soft – soft" C |')).toBe('| "soft – soft" C |\n');
  });

  it('[NOTE-9] reads ♭ ♯ 𝄫 𝄪 and the signs of chords, and keeps them as typed', () => {
    const text = '| B♭7 | F♯m7 | C𝄪ø | E𝄫 | C∆ | C△7 | Bº7 | C/B♭ | <A♭ / / / |\n';
    expect(problemsOf(text)).toEqual([]);
    expect(shortBars(text)).toEqual(['B♭7', 'F♯m7', 'C𝄪ø', 'E𝄫', 'C∆', 'C△7', 'Bº7', 'C/B♭', '<A♭ / / /']);
    expect(shortCells(text)[0]).toBe('B♭7@0+4');
    expect(problemsOf('key: E♭ blues\n| C |')).toEqual([]);
  });

  it('[NOTE-10] makes no other letters alike', () => {
    expect(shortProblems('| Ｃ7 | C⁷ |').map((line) => line.split(' ')[0])).toContain('unknown-chord');
    expect(shortBars('｜ C ｜')).toEqual([]);
  });
});
