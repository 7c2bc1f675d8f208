import { describe, expect, it } from 'vitest';
import { perform } from '../../../common/stage/perform.ts';
import { barsAround, upcoming } from '../../../common/stage/upcoming.ts';
import { play } from './support-read.ts';
import { bars, leg, road, take } from './support-road.ts';

const two = bars('a', 2);
const tune = road([leg('Head', 1, two), leg('Solos', 'open', two), leg('Out', 1, two)], { countBars: 1 });

describe('Bars to come', () => {
  it('[STAGE-37] are told across legs and passes with the time at which each begins', () => {
    const performance = play(tune, [7000, { kind: 'lastChorus' }]);
    const told = upcoming(performance, 3000, 9).map((b) => [
      b.index,
      b.startMs,
      b.leg.id,
      b.place.pass,
      b.passes,
    ]);
    expect(told).toEqual([
      [1, 4600, 'Head', 1, 1],
      [2, 6600, 'Solos', 1, 'open'],
      [3, 8600, 'Solos', 1, 'open'],
      [4, 10_600, 'Out', 1, 1],
      [5, 12_600, 'Out', 1, 1],
    ]);
  });

  it('[STAGE-37] carry what lands at their start', () => {
    const performance = play(tune, [7000, { kind: 'lastChorus' }], [7100, { kind: 'break', bars: 1 }]);
    expect(upcoming(performance, 7200, 2).map(({ lands }) => lands)).toEqual([[], ['c2', 'c3']]);
  });

  it('[STAGE-37] are the first ones while counting, and while waiting as if the count-in were called now', () => {
    expect(upcoming(play(tune), 700, 2).map(({ startMs }) => startMs)).toEqual([2600, 4600]);
    const waiting = perform(take(tune, []));
    expect(upcoming(waiting, 10_000, 2).map(({ startMs, lands }) => [startMs, lands])).toEqual([
      [12_600, []],
      [14_600, []],
    ]);
    expect(barsAround(waiting, 10_000, 4, 3)).toMatchObject({ now: -1, bars: { length: 3 } });
    expect(upcoming(perform(take(road([]), [])), 0, 4)).toEqual([]);
  });

  it('[STAGE-37] are told with those that were played, and with the one that is', () => {
    const { bars: around, now } = barsAround(play(tune), 7000, 1, 2);
    expect(now).toBe(1);
    expect(around.map(({ index }) => index)).toEqual([1, 2, 3, 4]);
    expect(barsAround(play(tune), 3000, 5, 1)).toMatchObject({ now: 0, bars: { length: 2 } });
  });

  it('[STAGE-37] are none after the end, when those that were played can still be asked for', () => {
    const ended = play(tune, [3000, { kind: 'stop' }]);
    expect(upcoming(ended, 9000, 4)).toEqual([]);
    expect(barsAround(ended, 9000, 4, 4)).toMatchObject({ now: -1, bars: [{ index: 0 }] });
  });
});
