import { describe, expect, it } from 'vitest';
import { type Edited, offersNow } from '../../../client/podium/offers.ts';
import { announced } from '../../../common/stage/announce.ts';
import { judge } from '../../../common/stage/judge.ts';
import { locate } from '../../../common/stage/locate.ts';
import type { Performance } from '../../../common/stage/perform.ts';
import { play } from '../../common/stage/support-read.ts';
import { bars, leg, road } from '../../common/stage/support-road.ts';

const tune = (...names: string[]) => road(names.map((name) => leg(name, 2, bars('a', 4))));

/** What stands in the row, each with its key. */
const offered = (performance: Performance, nowMs: number, edited: Edited | null): string[] =>
  offersNow(
    {
      performance,
      nowMs,
      where: locate(performance, nowMs),
      rolling: true,
      announced: announced(performance, nowMs),
      isFree: (cue) => judge(performance, cue, nowMs).ok,
    },
    edited,
  ).map(({ words, touch }) => (touch === null ? words : `${words} [${touch.key}]`));

describe('the offer of a new arrangement', () => {
  const playing = play(tune('Head', 'Out'));

  it('is there where the chart is another one, and not while one is on its way', () => {
    const edited = { road: tune('Head', 'Solos', 'Out'), toLookAt: 0 };
    expect(offered(playing, 1000, null)).toEqual([]);
    expect(offered(playing, 1000, edited)).toEqual(['New arrangement ready [take it at the top]']);
    const taken = play(tune('Head', 'Out'), [1000, { kind: 'adopt', road: edited.road }]);
    expect(offered(taken, 1100, edited)).toEqual([]);
  });

  it('says how much there is to look at, which leg would be gone, and what would follow', () => {
    expect(offered(playing, 1000, { road: tune('Head'), toLookAt: 3 })).toEqual([
      'New arrangement ready · 3 to look at [take it at the top]',
    ]);
    expect(offered(playing, 1000, { road: tune('Out'), toLookAt: 0 })).toEqual([
      'New arrangement without Head: on to Out [take it at the top]',
    ]);
    expect(offered(playing, 1000, { road: tune('Intro'), toLookAt: 4 })).toEqual([
      'New arrangement without Head: the tune ends · 4 to look at [take it at the top]',
    ]);
  });

  it('says that the one before was taken back, also where nothing is left to take', () => {
    const back = play(
      tune('Head', 'Out'),
      [1000, { kind: 'adopt', road: tune('Head') }],
      [1500, { kind: 'takeBack', cue: 'c2' }],
    );
    expect(offered(back, 1600, { road: tune('Head'), toLookAt: 1 })).toEqual([
      'Changed since it was taken · New arrangement ready · 1 to look at [take it at the top]',
    ]);
    expect(offered(back, 1600, null)).toEqual([
      'New arrangement taken back: the chart is again as it is played',
    ]);
  });
});
