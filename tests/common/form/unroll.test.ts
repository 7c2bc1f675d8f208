import { describe, expect, it } from 'vitest';
import { readChart } from '../../../common/chart/read-chart.ts';
import { DEMO_BAND } from '../../../common/demo/demo-band.ts';
import { unroll } from '../../../common/form/unroll.ts';
import { barsOf } from './build-chart.ts';

const roadOf = (...lines: string[]) => unroll(readChart(lines.join('\n')).chart);
const symbols = (text: string) => text.split(' ');

describe('a chart read from its text and unrolled', () => {
  it('[ROAD-12] [ROAD-13] is Slow Ferry: sixteen bars, open solos, a tag', () => {
    const { road, problems } = unroll(readChart(DEMO_BAND.charts[0]?.text ?? '').chart);
    expect(problems).toEqual([]);
    expect(road).toMatchObject({ tempoBpm: 108, countBars: 2, key: 'Eb blues' });
    expect(road.legs).toMatchObject([
      { name: 'Head', passes: 2 },
      { name: 'Solos', passes: 'open', words: 'guitar, tenor' },
      { name: 'Head out', passes: 1 },
      { name: 'Tag', passes: 2, tag: { timesInAll: 3 } },
    ]);
    expect(road.legs.map(({ bars }) => bars.length)).toEqual([16, 16, 16, 4]);
    expect(barsOf(road.legs[3]?.bars)).toBe(barsOf(road.legs[0]?.bars.slice(-4)));
    const breaks = road.legs[0]?.bars.map(({ marks }) => marks.some(({ mark }) => mark.kind === 'break'));
    expect(breaks?.indexOf(true)).toBe(14);
  });

  it('[ROAD-7] [ROAD-19] carries metre, phrases, letters and reaches to the bars played', () => {
    const { road, problems } = roadOf(
      'time: 4/4',
      '[A]',
      '|: C | "2nd x only: fill" F |',
      '| "3/4" G | C :|',
      '[B]',
      '| "solos: break 2" Am | "last x: hold" Dm |]',
      'road:',
      '  Head: A B',
      '  Solos: A B x3',
    );
    expect(problems).toEqual([]);
    const [head, solos] = road.legs;
    expect(head?.bars.map(({ pulses }) => pulses)).toEqual([4, 4, 3, 3, 4, 4, 3, 3, 4, 4]);
    expect(head?.bars.map(({ phraseEnd }) => (phraseEnd ? 1 : 0)).join('')).toBe('0101010101');
    expect(head?.bars.map(({ content }) => content.letter ?? '-').join('')).toBe('A---A---B-');
    const kinds = head?.bars.map(({ marks }) => marks.map(({ mark }) => mark.kind).join() || '-');
    expect(kinds).toEqual(['-', '-', 'metre', '-', '-', 'fill', 'metre', '-', '-', 'hold']);
    expect(solos?.bars[8]?.marks).toMatchObject([{ mark: { kind: 'break', bars: 2 } }]);
    expect(solos?.bars[9]?.marks).toMatchObject([{ mark: { kind: 'hold' }, pass: 'last' }]);
  });

  it('[ROAD-14] [ROAD-15] [ROAD-18] follows segno, to coda and fine as they are written', () => {
    const { road, problems } = roadOf(
      '[A]',
      '| C | "segno" F | "to coda" G | "fine" C |',
      '[Coda]',
      '| Fm | C |]',
      'road:',
      '  Head: A D.S. al Coda',
      '  Out: A D.C. al Fine',
    );
    expect(problems).toEqual([]);
    const chords = road.legs.map(({ lastBars }) =>
      (lastBars ?? []).map(({ content }) => content.music.cells[0]?.symbol),
    );
    expect(chords[0]).toEqual(symbols('C F G C F G Fm C'));
    expect(road.legs[1]).not.toHaveProperty('lastBars');
    expect(road.legs[1]?.bars).toHaveLength(8);
  });

  it('[ROAD-8] [ROAD-9] knows pick-ups and tacets', () => {
    const { road } = roadOf('[A]', '| "pick-up" r r | C | "tacet 8" G |', 'road:', 'Head: A');
    expect(road.legs[0]?.pickUp).toMatchObject({ pulses: 2 });
    expect(road.legs[0]?.bars.map(({ content }) => content.written)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
  });
});
