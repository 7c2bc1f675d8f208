import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { printBarText, readBarText } from '../../../common/chart/bar-text.ts';
import { type Chart, HEAD_WORDS } from '../../../common/chart/chart.ts';
import { checkChart } from '../../../common/chart/check-chart.ts';
import { printChart } from '../../../common/chart/print-chart.ts';
import { readBars } from '../../../common/chart/read-bars.ts';
import { readChart } from '../../../common/chart/read-chart.ts';
import { plainText } from '../../../common/chart/text-line.ts';
import { countingIds } from '../../../common/ids.ts';
import { typedText } from './typed-text.ts';

const inSomeOrder = (problems: readonly object[]): string[] =>
  problems.map((problem) => JSON.stringify(problem)).sort();

const withoutPlaces = (read: ReturnType<typeof readChart>) => ({
  chart: read.chart,
  problems: inSomeOrder(read.problems.map(({ line: _line, column: _column, ...problem }) => problem)),
});

/** Its words, but for header capitals, figures that signs are made of, and `road`. */
const wordsOf = (text: string): string[] =>
  plainText(text.replace(/^\ufeff/, '').replace(/[\r\n]/g, ' '))
    .toLowerCase()
    .replace(/[|:\][".,-]/g, ' ')
    .split(' ')
    .filter((word) => /\p{L}/u.test(word) && !/^(?:[x×\d]*|road)$/.test(word))
    .sort();

describe('the laws of chart text', () => {
  it('[NOTE-1] prints again character for character what was printed and read', () => {
    fc.assert(
      fc.property(typedText, (typed) => {
        const printed = printChart(readChart(typed).chart);
        const again = printChart(readChart(printed).chart);
        if (again !== printed) expect(again).toBe(printed);
      }),
      { numRuns: 1500 },
    );
  });

  const field = fc.oneof(
    fc.constantFrom(
      '',
      'A',
      'Head',
      'C7',
      '"fill" C / / /',
      'a | b',
      '[x] y',
      'road:',
      'title: x',
      'note: a',
      '1. C',
      'x3 D',
      '"open',
      'two\nlines',
      ']',
      '"a" "b" c',
    ),
    fc.string({ unit: fc.constantFrom(...'|:]["/ xr%12.\nA'), maxLength: 12 }),
  );
  const oddChart = fc
    .record({
      head: fc.record(Object.fromEntries(HEAD_WORDS.map((word) => [word, field])), { requiredKeys: [] }),
      sections: fc.array(
        fc.record({
          label: field,
          bars: fc.array(
            fc.record({
              text: field,
              left: fc.constantFrom('', '', '|:'),
              right: fc.constantFrom('', '', '||', '|]', ':|', ':|x3'),
              ending: fc.constantFrom('', '', '1.', '1.2.', '2.'),
              lineEnd: fc.boolean(),
            }),
            { maxLength: 6 },
          ),
        }),
        { maxLength: 3 },
      ),
      road: fc.array(fc.record({ name: field, sections: field, times: field, words: field }), {
        maxLength: 3,
      }),
      lines: fc.array(
        fc.record({ text: field, after: fc.constantFrom('', 'key', 'road', 'n1', 'n2', 'n3', 'n7', 'gone') }),
        { maxLength: 4 },
      ),
    })
    .map(({ head, sections, road, lines }): Chart => {
      const makeId = countingIds('n');
      const named = <Part extends object>(part: Part) => ({ id: makeId(), ...part });
      return {
        head,
        sections: sections.map((section) => ({ ...named(section), bars: section.bars.map(named) })),
        road: road.map(named),
        lines: lines.map(named),
      };
    });

  it('[NOTE-1] holds for charts whose fields hold what no text would have put there', () => {
    fc.assert(
      fc.property(oddChart, (chart) => {
        const printed = printChart(chart);
        const again = printChart(readChart(printed).chart);
        if (again !== printed) expect(again).toBe(printed);
      }),
      { numRuns: 1500 },
    );
  });

  it('[NOTE-2] reads what was printed as the same chart with the same problems but for positions', () => {
    fc.assert(
      fc.property(typedText, (typed) => {
        const read = withoutPlaces(readChart(typed));
        const again = withoutPlaces(readChart(printChart(read.chart)));
        if (JSON.stringify(again) !== JSON.stringify(read)) expect(again).toEqual(read);
      }),
      { numRuns: 1500 },
    );
  });

  it('[NOTE-3] gives every problem a line and a column that are in the text', () => {
    fc.assert(
      fc.property(typedText, (typed) => {
        const lines = typed.split(/\r\n|\r|\n/);
        for (const { line = 0, column = 0 } of readChart(typed).problems) {
          const length = lines[line - 1]?.length ?? -1;
          if (!(column >= 1 && column <= length)) expect({ line, column }).toBe('in the text');
        }
      }),
      { numRuns: 1000 },
    );
  });

  it('[NOTE-3] counts columns in the text as given', () => {
    const text = '\ufeff\t| 𝄫x  |\u00a0“brake”  Zorch | C7(b9  #11)  Zig |\r\n\u3000\u3000| F  G  A |';
    expect(readChart(text).problems.map(({ kind, line, column }) => [kind, line, column])).toEqual([
      ['unknown-chord', 1, 5],
      ['near-miss', 1, text.indexOf('“') + 1],
      ['unknown-chord', 1, text.indexOf('Zorch') + 1],
      ['unknown-chord', 1, text.indexOf('Zig') + 1],
      ['uneven-share', 2, 5],
    ]);
  });

  it('[NOTE-3] finds the same problems in the chart itself, by id', () => {
    fc.assert(
      fc.property(typedText, (typed) => {
        const read = readChart(typed);
        expect(inSomeOrder(checkChart(read.chart))).toEqual(withoutPlaces(read).problems);
      }),
      { numRuns: 300 },
    );
  });

  it('[NOTE-4] keeps every word that was typed', () => {
    fc.assert(
      fc.property(typedText, (typed) => {
        const kept = wordsOf(printChart(readChart(typed).chart));
        const counts = new Map<string, number>();
        for (const word of kept) counts.set(word, (counts.get(word) ?? 0) + 1);
        for (const word of wordsOf(typed)) {
          const left = (counts.get(word) ?? 0) - 1;
          counts.set(word, left);
          if (left < 0) expect({ typed, printed: kept.join(' ') }).toBe(`a chart with “${word}”`);
        }
      }),
      { numRuns: 1000 },
    );
  });

  it('[NOTE-5] repairs nothing: a text that is printed has all its problems still', () => {
    const text = `mood: blue
tempo: fast
tempo: 90
[A]
|: C | "brake F | x7 | C F G |
so it goes
[A]
| / / | % | |1. C |1. D
road:
  what
  Head: A "oh
`;
    const kinds = (typed: string) =>
      readChart(typed)
        .problems.map(({ kind }) => kind)
        .sort();
    expect(kinds(text).length).toBeGreaterThan(12);
    expect(kinds(printChart(readChart(text).chart))).toEqual(kinds(text));
  });

  it('[NOTE-4] tidying a bar’s text changes nothing but blanks', () => {
    fc.assert(
      fc.property(typedText, (text) => {
        const typed = text.replaceAll('|', '');
        const tidy = printBarText(readBarText(typed));
        const again = printBarText(readBarText(tidy));
        if (again !== tidy) expect(again).toBe(tidy);
        const bare = (text: string) => plainText(text).replace(/ /g, '');
        if (bare(tidy) !== bare(typed)) expect(bare(tidy)).toBe(bare(typed));
      }),
      { numRuns: 1000 },
    );
  });

  it('[NOTE-53] every bar has its music, whose cells come in order and fill it', () => {
    fc.assert(
      fc.property(typedText, (typed) => {
        const { chart } = readChart(typed);
        const { music } = readBars(chart);
        for (const { id } of chart.sections.flatMap(({ bars }) => bars)) {
          const bar = music.get(id);
          let end = 0;
          for (const { atPulse, lengthPulses } of bar?.cells ?? []) {
            if (!(Math.abs(atPulse - end) < 1e-9 && lengthPulses > 0)) expect(bar).toBe('cells without gaps');
            end = atPulse + lengthPulses;
          }
          if (!bar) throw new Error(`no music for the bar ${id}`);
          if (Math.abs(end - bar.pulses) > 1e-9) expect(bar).toBe('cells that fill the bar');
          if (bar.words.some(({ atPulse }) => atPulse < 0 || atPulse >= bar.pulses)) {
            expect(bar.words).toBe('words inside the bar');
          }
        }
      }),
      { numRuns: 1000 },
    );
  });

  it('[NOTE-53] a chart is read once however often it is asked', () => {
    const { chart } = readChart('[A]\n| C | % |');
    expect(readBars(chart).music).toBe(readBars(chart).music);
    expect(readBars({ ...chart }).music).not.toBe(readBars(chart).music);
  });

  it('[NOTE-53] ids come from the source that is given, in order of the chart', () => {
    const { chart } = readChart('note: x\n[A]\n| C | F |\nroad:\n Head: A', countingIds('q'));
    expect(chart.sections[0]?.id).toBe('q1');
    expect(chart.sections[0]?.bars.map(({ id }) => id)).toEqual(['q2', 'q3']);
    expect([chart.road[0]?.id, chart.lines[0]?.id]).toEqual(['q4', 'q5']);
  });

  it('[NOTE-54] two hundred bars are read in a few milliseconds', () => {
    const lines = ['title: Long Ferry', 'tempo: 120'];
    for (let section = 0; section < 10; section++) {
      lines.push(`[S${section}]`);
      for (let line = 0; line < 5; line++) lines.push('| Eb7 | % | "fill" Ab7 / / / | Gm7b5 C7(b9 #11) |');
    }
    const text = lines.join('\n');
    expect(readChart(text).chart.sections.flatMap(({ bars }) => bars)).toHaveLength(200);
    let bestMs = Number.POSITIVE_INFINITY;
    for (let run = 0; run < 20; run++) {
      const startMs = performance.now();
      readChart(text);
      bestMs = Math.min(bestMs, performance.now() - startMs);
    }
    expect(bestMs).toBeLessThan(15);
  });

  it('[NOTE-54] no text takes long, however odd', () => {
    for (const piece of ['"', '(', '|', ':', '"|', '[', '1,', 'x: "', '/', 'A', ' ', '\n[A', '(C ']) {
      const startMs = performance.now();
      printChart(readChart(`| ${piece.repeat(5_000)} |`).chart);
      printChart(readChart(piece.repeat(5_000)).chart);
      expect(performance.now() - startMs).toBeLessThan(1500);
    }
  });
});
