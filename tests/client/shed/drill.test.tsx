import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { byName, dayOf, daysApart, dayWords, meanOff } from '../../../client/shed/drill-days.ts';
import { DrillPlot } from '../../../client/shed/drill-plot.tsx';
import { answerWords, cueWords, dueWords } from '../../../client/shed/drill-words.ts';
import { levelDb } from '../../../client/shed/listen-microphone.ts';
import { CUE_KINDS } from '../../../common/rehearsal/drill-cues.ts';
import type { DayScore } from '../../../common/rehearsal/drill-scores.ts';
import { leg, legBars, played } from '../stand/coming-bars.ts';

const score = (day: string, name: string, right: number, asked: number, offBeats = 0): DayScore => ({
  day,
  drill: 'cues',
  chart: '',
  name,
  asked,
  right,
  tapped: right,
  offBeats,
});
const days = [
  score('2026-02-27', 'tag', 1, 4, 2),
  score('2026-02-27', 'hold', 0, 1),
  score('2026-03-01', 'tag', 4, 4, 1),
];

describe('the days of a drill', () => {
  it('are counted over the end of a month', () => {
    expect(daysApart('2026-02-27', '2026-03-01')).toBe(2);
    // 2028 is a leap year.
    expect(daysApart('2028-02-27', '2028-03-01')).toBe(3);
    expect(dayWords('2026-03-01')).toBe('1 Mar');
    expect(dayOf(new Date(2026, 10, 8, 23, 59))).toBe('2026-11-08');
  });

  it('stand by name, what was asked most first; what nobody can name is left out', () => {
    const names = byName([...days, score('2026-03-01', 'later version', 1, 9)], cueWords);
    expect(names.map(({ words }) => words)).toEqual(['Tag', 'Hold']);
    expect(names[0]?.scores.map(({ day }) => day)).toEqual(['2026-02-27', '2026-03-01']);
    expect(meanOff(days[0] as DayScore)).toBe(2);
    expect(meanOff(days[1] as DayScore)).toBeNull();
  });

  it('are drawn to scale and told in a table', () => {
    const html = renderToStaticMarkup(
      <DrillPlot caption="Share that was right" names={byName(days, cueWords)} of="right" />,
    );
    const points =
      /points="([^"]+)"/
        .exec(html)?.[1]
        ?.split(' ')
        .map((point) => point.split(',').map(Number)) ?? [];
    expect(points).toHaveLength(2);
    const [[x0 = 0, y0 = 0] = [], [x1 = 0, y1 = 0] = []] = points;
    expect(x1).toBeGreaterThan(x0);
    const lines = [...html.matchAll(/class="drill-grid"[^>]* y1="([\d.]+)"/g)].map((match) =>
      Number(match[1]),
    );
    const [all = 0, none = 0] = lines;
    // All of them on the second day, a quarter on the first.
    expect(y1).toBeCloseTo(all, 6);
    expect((none - y0) / (none - all)).toBeCloseTo(0.25, 6);
    expect(html).toContain('<td>1 of 4 right, 2.0 beats off</td>');
    expect(html).toContain('<td>not asked</td>');
    expect(html).toContain('<th scope="row">Tag</th>');
  });

  it('show nothing before the first', () => {
    expect(renderToStaticMarkup(<DrillPlot caption="" names={[]} of="off" />)).toBe('');
  });
});

describe('the words of a drill', () => {
  it('name every kind of cue', () => {
    expect(new Set([...CUE_KINDS, 'release'].map(cueWords)).size).toBe(CUE_KINDS.length + 1);
    expect([...CUE_KINDS].every((kind) => cueWords(kind) !== '')).toBe(true);
    expect(cueWords('toString')).toBe('');
  });

  it('say how far off an answer was', () => {
    const words = (right: boolean, errorBeats: number | null) =>
      answerWords({ name: 'tag', right, errorBeats });
    expect(words(true, 0.02)).toBe('Right: on the beat');
    expect(words(true, -0.3)).toBe('Right: 0.3 beats early');
    expect(words(false, 1)).toBe('Missed: 1.0 beat late');
    expect(words(false, null)).toBe('Missed: no tap');
    expect(words(true, null)).toBe('Right: silent in the break');
  });

  it('say where to tap in the dark', () => {
    const solos = leg('s', 'Solos', 'open', legBars(8, [3, 7], { 0: 'A', 4: 'B' }));
    const out = leg('o', 'Head out', 1, legBars(4, [3]));
    const bars = played([
      { leg: solos, pass: 1 },
      { leg: solos, pass: 2 },
      { leg: out, pass: 1 },
    ]);
    const words = (from: number, due: number) => {
      const [first, last] = [bars[from], bars[due]];
      if (!first || !last) throw new Error('no such bar');
      return dueWords({ from: first, due: last });
    };
    expect(words(2, 4)).toBe('letter B, bar 5');
    expect(words(2, 5)).toBe('bar 6');
    expect(words(6, 8)).toBe('the top');
    expect(words(14, 16)).toBe('the first bar of Head out');
  });
});

describe('the level of a microphone', () => {
  it('is the root of the mean square in dB below full scale', () => {
    const sine = Float32Array.from({ length: 4800 }, (_, at) => Math.sin((2 * Math.PI * at) / 48));
    // A full-scale sine lies 20·log10(1/√2) = −3.01 dB below a full-scale square: arithmetic.
    expect(levelDb(sine)).toBeCloseTo(-3.01, 2);
    expect(levelDb(sine.map((sample) => sample / 10))).toBeCloseTo(-23.01, 2);
    expect(levelDb(new Float32Array(64))).toBe(-80);
    expect(levelDb([])).toBe(-80);
  });
});
