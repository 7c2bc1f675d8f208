import { describe, expect, it } from 'vitest';
import type { Cue } from '../../../common/stage/cue.ts';
import { judge } from '../../../common/stage/judge.ts';
import { locate } from '../../../common/stage/locate.ts';
import { perform } from '../../../common/stage/perform.ts';
import { at, play, told } from './support-read.ts';
import { bar, bars, leg, mark, road, take } from './support-road.ts';

const eight = bars('a', 8);
const tune = road([leg('Head', 2, eight), leg('Solos', 'open', eight), leg('Out', 1, eight)], {
  countBars: 0,
});
const goTo = (id: string, barIndex: number, pass?: number): Cue => ({
  kind: 'goTo',
  leg: id,
  barIndex,
  ...(pass === undefined ? {} : { pass }),
});
const from = (fields: Partial<Extract<Cue, { kind: 'start' }>>) =>
  perform(take(tune, [[0, { kind: 'start', ...fields }]]));

describe('Start', () => {
  it('[STAGE-19] begins at any bar of any pass, and plays on from there', () => {
    expect(told(from({ leg: 'Solos', barIndex: 6, pass: 3 }), 4)).toEqual([
      ...['Solos 3.7', 'Solos 3.8', 'Solos 4.1', 'Solos 4.2'],
    ]);
    expect(told(from({ barIndex: 7 }), 2)).toEqual(['Head 1.8', 'Head 2.1']);
    expect(at(from({ leg: 'Out' }), 600)).toBe('Out 1.1+0');
  });

  it('[STAGE-19] is refused where there is no such bar, no such pass, nothing to play, or a tune on', () => {
    const waiting = perform(take(tune, []));
    const start = (fields: object): Cue => ({ kind: 'start', ...fields });
    expect(judge(waiting, start({ leg: 'nowhere' }), 0)).toMatchObject({ ok: false, why: 'noSuchPlace' });
    expect(judge(waiting, start({ barIndex: 8 }), 0)).toMatchObject({ ok: false, why: 'noSuchPlace' });
    expect(judge(waiting, start({ barIndex: 1.5 }), 0)).toMatchObject({ ok: false, why: 'noSuchPlace' });
    expect(judge(waiting, start({ pass: 3 }), 0)).toMatchObject({ ok: false, why: 'noSuchPass' });
    expect(judge(waiting, start({ pass: 0 }), 0)).toMatchObject({ ok: false, why: 'noSuchPass' });
    expect(judge(perform(take(road([]), [])), start({}), 0)).toMatchObject({ ok: false, why: 'emptyRoad' });
    expect(judge(play(tune), start({}), 100)).toMatchObject({ ok: false, why: 'rolling' });
  });

  it('[STAGE-20] counts in the metre of the first bar played', () => {
    const waltz = road([leg('A', 1, [bar('x'), bar('y', { pulses: 3 })])], { countBars: 2 });
    const performance = perform(take(waltz, [[0, { kind: 'start', barIndex: 1 }]]));
    expect(locate(performance, 600)).toMatchObject({ pulsesToCome: 6, barPulses: 3 });
    expect(at(performance, 3600)).toBe('A 1.2+0');
  });

  it('[STAGE-20] has its downbeat 600 ms after the call where there is no count-in', () => {
    expect(locate(play(tune), 599)).toMatchObject({ state: 'count', pulsesToCome: 0, countPulses: 0 });
    expect(at(play(tune), 600)).toBe('Head 1.1+0');
  });

  it('[STAGE-31] plays a pick-up at the top of the leg only, count-in and pick-up filling whole bars', () => {
    const up = bar('up', { pulses: 1, metrePulses: 4 });
    const on = (countBars: number) =>
      road([leg('Head', 2, bars('a', 2), { pickUp: up }), leg('Out', 1, bars('b', 2), { pickUp: up })], {
        countBars,
      });
    const two = play(on(2));
    expect(locate(two, 600)).toMatchObject({ pulsesToCome: 7, place: { leg: 'Head', barIndex: -1 } });
    expect(at(two, 600 + 3500)).toBe('Head 1.0+0');
    expect(at(two, 600 + 4000)).toBe('Head 1.1+0');
    expect(told(two, 8)).toEqual([
      ...['Head 1.0', 'Head 1.1', 'Head 1.2', 'Head 2.1', 'Head 2.2'],
      ...['Out 1.1', 'Out 1.2', 'end'],
    ]);
    expect(locate(play(on(0)), 600)).toMatchObject({ pulsesToCome: 3 });
    const middle = perform(take(on(2), [[0, { kind: 'start', barIndex: 1 }]]));
    expect(at(middle, 600 + 4000)).toBe('Head 1.2+0');
  });
});

describe('Go to', () => {
  it('[STAGE-26] keeps the pass within the leg', () => {
    const performance = play(tune, [17_000, goTo('Head', 6)]);
    expect(told(performance, 15).slice(10)).toEqual([
      'Head 2.3',
      'Head 2.4',
      'Head 2.7',
      'Head 2.8',
      'Solos 1.1',
    ]);
    // At a pass end too: the pass is played again from there.
    expect(told(play(tune, [9000, goTo('Head', 4)]), 9).at(-1)).toBe('Head 1.5');
  });

  it('[STAGE-26] takes another leg from pass 1, its passes as written', () => {
    const back = play(tune, [1000, { kind: 'lastChorus' }], [20_000, goTo('Head', 0)]);
    expect(told(back, 30).slice(8, 30)).toEqual([
      ...['Solos 1.1', 'Solos 1.2', 'Solos 1.3', 'Solos 1.4'],
      ...Array.from({ length: 16 }, (_, i) => `Head ${i < 8 ? 1 : 2}.${(i % 8) + 1}`),
      ...['Solos 1.1', 'Solos 1.2'],
    ]);
  });

  it('[STAGE-26] is refused where there is no such place', () => {
    for (const cue of [goTo('nowhere', 0), goTo('Head', 8), goTo('Head', -1), goTo('Head', 0.5)]) {
      expect(judge(play(tune), cue, 1000)).toMatchObject({ ok: false, why: 'noSuchPlace' });
    }
    expect(judge(play(tune), goTo('Out', 0, 2), 1000)).toMatchObject({ ok: false, why: 'noSuchPass' });
    expect(judge(perform(take(tune, [])), goTo('Head', 0), 0)).toMatchObject({ ok: false, why: 'waiting' });
  });

  it('[STAGE-11] lands at the next phrase end, or on the downbeat of a count-in', () => {
    expect(judge(play(tune), goTo('Out', 0), 1000)).toMatchObject({ ok: true, landsMs: 8600, barsToGo: 4 });
    expect(told(play(tune, [50, goTo('Out', 4)]), 2)).toEqual(['Out 1.5', 'Out 1.6']);
  });
});

describe('Here', () => {
  const here = (id: string, barIndex: number, more: object = {}): Cue => ({
    kind: 'here',
    leg: id,
    barIndex,
    ...more,
  });

  it('[STAGE-28] is beat one of that bar, now', () => {
    const performance = play(tune, [5300, here('Head', 4)]);
    expect(at(performance, 5299)).toBe('Head 1.3+1.398');
    expect(at(performance, 5300)).toBe('Head 1.5+0');
    expect(at(performance, 7300)).toBe('Head 1.6+0');
  });

  it('[STAGE-28] was at the press: the place is advanced by the difference', () => {
    expect(at(play(tune, [5300, here('Head', 4, { pressedAtMs: 5050 })]), 5300)).toBe('Head 1.5+0.5');
    expect(at(play(tune, [5300, here('Head', 4, { pressedAtMs: 5350 })]), 5300)).toBe('Head 1.5+0');
    const fast = road([leg('A', 1, bars('a', 8))], { countBars: 0, tempoBpm: 400 });
    // 900 ms at 400 are six pulses: the band is in the next bar already.
    expect(at(play(fast, [2000, here('A', 4, { pressedAtMs: 1100 })]), 2000)).toBe('A 1.6+2');
    expect(judge(play(tune), here('Head', 4, { pressedAtMs: 4000 }), 5300)).toMatchObject({
      ok: false,
      why: 'pressTooFar',
    });
  });

  it('[STAGE-28] leaves what is pending pending', () => {
    const performance = play(tune, [1000, { kind: 'lastChorus' }], [5300, here('Head', 6)]);
    expect(at(performance, 9300)).toBe('Solos 1.1+0');
  });

  it('[STAGE-28] keeps the pass in the same leg; another leg begins as written', () => {
    expect(at(play(tune, [17_000, here('Head', 2)]), 17_000)).toBe('Head 2.3+0');
    expect(at(play(tune, [17_000, here('Solos', 2)]), 17_000)).toBe('Solos 1.3+0');
    expect(at(play(tune, [17_000, here('Solos', 2, { pass: 4 })]), 17_000)).toBe('Solos 4.3+0');
  });

  it('[STAGE-28] starts the take without a count-in while waiting, and ends a count-in', () => {
    expect(at(perform(take(tune, [[700, here('Solos', 3)]])), 700)).toBe('Solos 1.4+0');
    expect(at(play(tune, [300, here('Head', 0)]), 2300)).toBe('Head 1.2+0');
  });

  it('[STAGE-28] takes the tempo written in that bar', () => {
    const on = road([leg('A', 1, bars('a', 8, { 4: { marks: [mark({ kind: 'tempo', bpm: 60 })] } }))], {
      countBars: 0,
    });
    expect(at(play(on, [2000, here('A', 4, { pressedAtMs: 1500 })]), 2000)).toBe('A 1.5+0.5');
    expect(at(play(on, [2000, here('A', 4)]), 6000)).toBe('A 1.6+0');
  });
});
