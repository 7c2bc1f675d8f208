import { describe, expect, it } from 'vitest';
import { readChart } from '../../../common/chart/read-chart.ts';
import { unroll } from '../../../common/form/unroll.ts';
import { followedChorus } from '../../../common/stage/followed-chorus.ts';
import { perform } from '../../../common/stage/perform.ts';
import { type Calls, START, take } from './support-road.ts';

// 4/4 at 120, 2 s a bar: two bars of intro, four of form, one of tag.
const CHART = `tempo: 120
count: 2
[Intro]
| C | G7 |
[A]
| C | F | G7 | C |
[T]
| G7 |
road:
  Intro: Intro
  Head: A
  Solos: A open
  Head out: A
  Tag: T
`;
const { road } = unroll(readChart(CHART).chart);
/** The leg and pass at the start of each bar from the first one of the intro, two bars of count-in later. */
const chorusAt = (bar: number, ...calls: Calls): string | null => {
  const performance = perform(take(road, [[0, START], ...calls]));
  const place = followedChorus(performance, 4600 + bar * 2000 + 100);
  return place && `${road.legs.find(({ id }) => id === place.leg)?.name} ${place.pass}`;
};

describe('a chorus that another one follows', () => {
  it('is a pass of head or solos, never the intro', () => {
    expect([0, 1].map((bar) => chorusAt(bar))).toEqual([null, null]);
    const at = [2, 5, 6, 9, 10].map((bar) => chorusAt(bar));
    expect(at).toEqual(['Head 1', 'Head 1', 'Solos 1', 'Solos 1', 'Solos 2']);
  });

  it('is not the last one, with a tag behind it or nothing', () => {
    const last: Calls[number] = [4600 + 7 * 2000, { kind: 'lastChorus' }];
    expect(chorusAt(8, last)).toBe('Solos 1');
    expect([10, 13, 14].map((bar) => chorusAt(bar, last))).toEqual([null, null, null]);
  });

  it('is nowhere before the count-in is over', () => {
    expect(followedChorus(perform(take(road, [])), 0)).toBeNull();
    expect(chorusAt(-1)).toBeNull();
  });
});
