import { describe, expect, it } from 'vitest';
import type { Road } from '../../../common/form/road.ts';
import type { Cue } from '../../../common/stage/cue.ts';
import { judge } from '../../../common/stage/judge.ts';
import { locate } from '../../../common/stage/locate.ts';
import { type Performance, perform } from '../../../common/stage/perform.ts';
import { tempoCurve } from '../../../common/stage/tempo-curve.ts';
import { seededRandom } from '../../support/seeded-random.ts';
import { at } from './support-read.ts';
import { bar, type Calls, leg, road, START, take } from './support-road.ts';

const DELAY_MS = 40;
const tapped = (times: readonly number[]): Calls =>
  times.map((t) => [t + DELAY_MS, { kind: 'tap', tappedAtMs: t } as Cue] as const);

/** Eight bars of so many pulses, counted in for so many bars. */
const tune = (pulses: number, countBars: number, more: Partial<Road> = {}): Road => {
  const music = Array.from({ length: 8 }, (_, i) => bar(`a${i + 1}`, { pulses }));
  return road([leg('A', 'open', music)], { countBars, ...more });
};

/** Taps on these pulses; pulse 0 comes at 10,000. */
const onPulses = (pulses: readonly number[], bpm: number, offMs: () => number = () => 0): number[] =>
  pulses.map((pulse) => 10_000 + (pulse * 60_000) / bpm + offMs());

const waits = (onRoad: Road, times: readonly number[]): boolean =>
  locate(perform(take(onRoad, tapped(times))), 1e6).state === 'waiting';

/** Number of the tap with which the take starts; 0 where it does not. */
const startsWith = (onRoad: Road, times: readonly number[]): number =>
  times.findIndex((_, i) => !waits(onRoad, times.slice(0, i + 1))) + 1;

const downbeatMs = (performance: Performance): number => {
  let [before, after] = [10_000, 60_000];
  while (after - before > 0.01) {
    const middle = (before + after) / 2;
    if (['waiting', 'count'].includes(locate(performance, middle).state)) before = middle;
    else after = middle;
  }
  return after;
};

describe('Counting in by taps', () => {
  // [pulses of a bar, bars of count-in, pulses tapped, tap with which it starts, pulse of the downbeat]
  it.each([
    ['4/4, two bars, as drawn', 4, 2, [0, 2, 4, 5, 6, 7], 4, 8],
    ['4/4, two bars, the last one alone', 4, 2, [0, 1, 2, 3], 4, 4],
    ['4/4, one bar', 4, 1, [0, 1, 2, 3], 3, 4],
    ['4/4, four bars', 4, 4, [0, 2, 4, 6, 8, 10, 12, 13, 14, 15], 8, 16],
    ['3/4, two bars', 3, 2, [0, 3, 4, 5], 3, 6],
    ['3/4, one bar', 3, 1, [0, 1, 2], 3, 3],
    ['5/4, two bars', 5, 2, [0, 5, 6, 7, 8, 9], 3, 10],
    ['5/4, one bar', 5, 1, [0, 1, 2, 3, 4], 3, 5],
    ['6/8, two bars', 2, 2, [0, 2, 3], 3, 4],
    ['6/8, two bars, the last one alone: with the downbeat', 2, 2, [0, 1, 2], 3, 2],
    ['6/4, two bars', 6, 2, [0, 3, 6, 7, 8], 4, 12],
    ['no count-in: as one bar', 4, 0, [0, 1, 2, 3], 3, 4],
  ])(
    '[STAGE-78] [STAGE-79] starts the take at tempo and phase of the taps: %s',
    (_, pulses, bars, pattern, starts, downbeat) => {
      for (const bpm of [66, 104, 138, 184]) {
        const onRoad = tune(pulses, bars);
        expect(startsWith(onRoad, onPulses(pattern, bpm))).toBe(starts);
        const performance = perform(take(onRoad, tapped(onPulses(pattern, bpm))));
        const [meantMs] = onPulses([downbeat], bpm) as [number];
        // Heard after the downbeat, the band is seen to play from then on.
        const lastMs = (onPulses(pattern, bpm).at(-1) ?? 0) + DELAY_MS;
        expect(
          Math.abs(downbeatMs(performance) - Math.max(meantMs, Math.min(lastMs, meantMs + DELAY_MS))),
        ).toBeLessThan(1);
        expect(at(performance, meantMs + (2.5 * 60_000) / bpm)).toMatch(
          pulses === 2 ? /A 1.2\+0.5/ : /A 1.1\+2.5/,
        );
      }
    },
  );

  it('[STAGE-78] shows everybody the count with the beats still to come', () => {
    const performance = perform(take(tune(4, 2), tapped(onPulses([0, 2, 4, 5], 120))));
    const heard = 10_000 + 2500 + DELAY_MS;
    expect(locate(performance, heard - 1)).toEqual({ state: 'waiting' });
    const where = locate(performance, heard);
    expect(where).toMatchObject({ state: 'count', countPulses: 8, barPulses: 4 });
    expect(where.state === 'count' && where.pulsesToCome).toBeCloseTo(3 - DELAY_MS / 500, 6);
  });

  it('[STAGE-78] is steered by the taps that follow, and a hand that is not exact is understood', () => {
    const random = seededRandom(5);
    const gauss = () => 20 * Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
    const errors = Array.from({ length: 60 }, () => {
      const times = onPulses([0, 2, 4, 5, 6, 7], 126, gauss);
      expect(startsWith(tune(4, 2), times)).toBe(4);
      const [meantMs] = onPulses([8], 126) as [number];
      return Math.abs(downbeatMs(perform(take(tune(4, 2), tapped(times)))) - meantMs);
    });
    expect(errors.reduce((a, b) => a + b, 0) / errors.length).toBeLessThan(20);
    expect(Math.max(...errors)).toBeLessThan(60);
  });

  it('[STAGE-78] begins a pick-up after the count, so that whole bars are filled', () => {
    const music = [bar('a1'), bar('a2')];
    const pickUp = bar('up', { pulses: 1, metrePulses: 4 });
    const onRoad = road([leg('A', 'open', music, { pickUp })], { countBars: 2 });
    const performance = perform(take(onRoad, tapped(onPulses([0, 2, 4, 5, 6], 120))));
    expect(at(performance, 10_000 + 7 * 500 + 250)).toBe('A 1.0+0.5');
    expect(at(performance, 10_000 + 8 * 500 + 250)).toBe('A 1.1+0.5');
  });

  it('[STAGE-79] waits while the taps can be understood in two ways', () => {
    // Three even taps may be the halves of the first bar and the next one, or three beats.
    expect(waits(tune(4, 2), onPulses([0, 1, 2], 120))).toBe(true);
    expect(waits(tune(4, 2), onPulses([0, 2, 4], 120))).toBe(true);
    // At 250 ms the halves would be of 480 a minute.
    expect(waits(tune(4, 2), onPulses([0, 1, 2], 240))).toBe(false);
  });

  it('[STAGE-79] believes two taps where the count is over with them, if they go nearly at the tempo asked for', () => {
    expect(startsWith(tune(2, 1, { tempoBpm: 60 }), onPulses([0, 1, 2], 66))).toBe(2);
    expect(startsWith(tune(2, 1, { tempoBpm: 60 }), onPulses([0, 1, 2], 80))).toBe(3);
    expect(startsWith(tune(4, 1, { tempoBpm: 120 }), onPulses([0, 1], 120))).toBe(0);
  });

  it('[STAGE-80] is not begun by taps that make no count', () => {
    expect(waits(tune(4, 2), onPulses([0, 2, 5, 6, 7, 8, 9, 10], 120))).toBe(true);
    expect(waits(tune(4, 2), onPulses([0, 1.4, 2, 3.7], 120))).toBe(true);
    expect(waits(tune(4, 2), onPulses([0, 2, 4, 5], 12))).toBe(true);
    expect(waits(tune(4, 1), [10_000, 10_000, 10_050, 10_110])).toBe(true);
  });

  it('[STAGE-80] counts anew after a pause, whatever was tapped before', () => {
    const count = onPulses([0, 2, 4, 5], 120);
    expect(startsWith(tune(4, 2), [7900, ...count])).toBe(5);
    expect(startsWith(tune(4, 2), [5000, 5350, 5500, 6600, ...count])).toBe(8);
    expect(
      startsWith(tune(4, 2), [
        -900,
        ...Array.from({ length: 30 }, (_, i) => -500 + 260 * i + 130 * (i % 2)),
        ...count,
      ]),
    ).toBe(35);
    // A tap that came twice is one.
    expect(startsWith(tune(4, 2), [count[0] as number, (count[0] as number) + 90, ...count.slice(1)])).toBe(
      5,
    );
  });

  it('[STAGE-80] tells what became of each tap', () => {
    const times = [...onPulses([0], 120), 10_080, ...onPulses([2, 4, 5, 6], 120)];
    const performance = perform(take(tune(4, 2), tapped(times)));
    expect(tempoCurve(performance, 20_000).taps.map(({ did }) => did)).toEqual([
      ...['collected', 'bounced', 'collected', 'collected', 'countedIn', 'followed'],
    ]);
  });

  it('[STAGE-80] leaves a start that is called as it is', () => {
    const calls: Calls = [...tapped(onPulses([0, 2], 120)), [12_000, START]];
    expect(at(perform(take(tune(4, 2), calls)), 12_600 + 4000)).toBe('A 1.1+0');
  });

  it('[STAGE-35] is refused where there is no bar to play', () => {
    const empty = perform(take(road([]), []));
    expect(judge(empty, { kind: 'tap', tappedAtMs: 1000 }, 1000)).toMatchObject({ why: 'emptyRoad' });
  });
});
