import { describe, expect, it } from 'vitest';
import { readChart } from '../../../common/chart/read-chart.ts';
import { SLOW_FERRY } from '../../../common/demo/slow-ferry.ts';
import { type LostSpotOptions, lostSpots } from '../../../common/form/lost-spots/lost-spots.ts';
import { markedBars, markedIds } from '../../../common/form/lost-spots/marked-bars.ts';
import { unroll } from '../../../common/form/unroll.ts';

const roadOf = (text: string) => unroll(readChart(text).chart).road;

/** Numbers, from 1, of the bars underlined in a pass of the leg of that name. */
const marked = (text: string, name: string, pass = 1, options: LostSpotOptions = {}): number[] => {
  const road = roadOf(text);
  const leg = road.legs.find((one) => one.name === name);
  if (!leg) throw new Error(`no leg ${name}`);
  const spots = lostSpots(road, options).find((one) => one.leg === leg.id)?.spots ?? [];
  return [...markedBars(spots, { bars: leg.bars, pass, passes: leg.passes })]
    .map((at) => at + 1)
    .sort((a, b) => a - b);
};

const A = '| Dm7 | G7 | Em7 | A7 |';
const chart = (...lines: string[]): string => `key: C\n\n[A]\n${lines.join('\n')}\n`;

describe('what is underlined', () => {
  it('[LOST-12] the whole seam on both sides of the top, a break, and the bar where the usual length is over', () => {
    // One chord in 16 and 1–4, a break in 15, and bar 13 which is not the top of a blues.
    expect(marked(SLOW_FERRY, 'Solos')).toEqual([1, 2, 3, 4, 13, 15, 16]);
  });

  it('[LOST-12] of a seam into another leg only what lies before it', () => {
    const text = `${chart(A, '| C | F | G | Dm7 |')}\nroad:\n  Head: A\n  Solos: A open\n`;
    expect(marked(text, 'Head')).toEqual([8]);
    expect(marked(text, 'Solos')).toEqual([1, 8]);
  });

  it('[LOST-12] a break of the last pass in that pass only', () => {
    const text = `${chart(A, '| C | "last x: break" F | G | G7 |')}\nroad:\n  Head: A x2\n  Solos: A open\n`;
    expect(marked(text, 'Head', 1)).toEqual([]);
    expect(marked(text, 'Head', 2)).toEqual([6]);
    expect(marked(text, 'Solos', 2)).toEqual([]);
  });

  it('[LOST-12] the last bar, where phrases part at the top', () => {
    const text = chart(
      '| C | Am7 | Dm7 | G7 |',
      '| E7 | A7 | D7 | G7 |',
      '| C | Am7 | Dm7 | G7 |',
      '| C | Am7 | Dm7 | G7 |',
    );
    expect(marked(text, 'Solos')).toContain(16);
  });

  it('[LOST-12] all bars of what the band added', () => {
    const text = chart(A, '| C | F | G | G7 |');
    const [leg] = roadOf(text).legs;
    const [from = '', to = ''] = [leg?.bars[4]?.id, leg?.bars[6]?.id];
    const added = [{ id: 'x', from, to, words: 'the bass alone' }];
    expect(marked(text, 'Solos', 1, { added })).toEqual([5, 6, 7]);
  });

  it('on the page all that is underlined in any leg', () => {
    const road = roadOf(SLOW_FERRY);
    const numbers = new Map(
      road.legs.flatMap(({ bars }) => bars.map((bar) => [bar.id, bar.content.written])),
    );
    const ids = markedIds(road, lostSpots(road));
    expect([...ids].map((id) => numbers.get(id)).sort((a = 0, b = 0) => a - b)).toEqual([
      1, 2, 3, 4, 13, 15, 16,
    ]);
  });
});
