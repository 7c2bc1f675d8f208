import { describe, expect, it } from 'vitest';
import { wholeTake } from '../../../client/shed/whole-take.ts';
import { readChart } from '../../../common/chart/read-chart.ts';
import { DEMO_BAND } from '../../../common/demo/demo-band.ts';
import { unroll } from '../../../common/form/unroll.ts';
import { locate } from '../../../common/stage/locate.ts';
import { barsAround } from '../../../common/stage/upcoming.ts';

const takeOf = (text: string) => ({
  id: 't',
  chart: 'c',
  title: '',
  road: unroll(readChart(text).chart).road,
  cues: [],
});

const legsPlayed = (text: string): string[] => {
  const whole = wholeTake(takeOf(text));
  if (whole === null) throw new Error('it has no end');
  const { bars } = barsAround(whole.performance, 0, 0, 2000);
  return bars.filter(({ place }) => place.barIndex === 0).map(({ leg }) => leg.name);
};

describe('a tune from its count-in to its end', () => {
  it('plays what is written as often as it is written, and open legs once', () => {
    const text =
      'key: C\ntempo: 120\n[A]\n| C | F |\n[B]\n| G | C |\n\nroad:\n Head: A x2\n Solos: B open\n Out: A\n';
    expect(legsPlayed(text)).toEqual(['Head', 'Head', 'Solos', 'Out']);
  });

  it('has an end for every tune of the demo band', () => {
    for (const { id, text } of DEMO_BAND.charts) {
      const whole = wholeTake(takeOf(text));
      expect(whole, id).not.toBeNull();
      if (whole === null) continue;
      expect(locate(whole.performance, whole.endMs + 1).state).toBe('ended');
      expect(['playing', 'held']).toContain(locate(whole.performance, whole.endMs - 10).state);
    }
  });
});
