import { describe, expect, it } from 'vitest';
import { announced } from '../../../common/stage/announce.ts';
import type { Cue } from '../../../common/stage/cue.ts';
import { stopTimeAt } from '../../../common/stage/in-force.ts';
import { judge } from '../../../common/stage/judge.ts';
import type { Performance } from '../../../common/stage/perform.ts';
import { allBars, outs, play } from './support-read.ts';
import { type BarSpec, bars, leg, mark, road } from './support-road.ts';

const STOP_TIME: Cue = { kind: 'stopTime' };
const OFF: Cue = { kind: 'stopTimeOff' };
/** '!' for a bar of which only beat one is hit. */
const hits = (performance: Performance, most: number) =>
  allBars(performance, most)
    .map(({ stopTime }) => (stopTime ? '!' : '.'))
    .join('');

/** Sixteen bars in phrases of four, letters at bars 1 and 9; a bar lasts 2 s from 600 on. */
const tune = (others: Record<number, BarSpec> = {}) =>
  road([leg('A', 2, bars('a', 16, { 0: { letter: 'A' }, 8: { letter: 'B' }, ...others }))], { countBars: 0 });
const written = (pass?: number | 'last') => ({ marks: [mark({ kind: 'stopTime' }, 2, pass)] });

describe('Stop-time', () => {
  it('[STAGE-52] hits on one of each bar from the phrase on, until it is called off', () => {
    const performance = play(tune(), [1000, STOP_TIME], [40_000, OFF]);
    // Bar 20 is on at 40,000 (600 + 19 · 2,000 = 38,600): the phrase ends with it, at 40,600.
    expect(hits(performance, 32)).toBe('....!!!!!!!!!!!!!!!!............');
    expect([8599, 8600, 40_599, 40_600].map((t) => stopTimeAt(performance, t))).toEqual([
      false,
      true,
      true,
      false,
    ]);
    expect(announced(performance, 7000)[0]).toMatchObject({ family: 'out', name: 'Stop-time', barsToGo: 1 });
    expect(announced(performance, 40_300)).toMatchObject([{ name: 'Stop-time off', detail: 'play on' }]);
  });

  it('[STAGE-52] is refused where it is called already, and off where there is none', () => {
    expect(judge(play(tune(), [1000, STOP_TIME]), STOP_TIME, 1500)).toMatchObject({ why: 'stopTimeAlready' });
    expect(judge(play(tune()), OFF, 1500)).toMatchObject({ why: 'noStopTime' });
    expect(judge(play(tune(), [1000, STOP_TIME]), OFF, 1500)).toMatchObject({ ok: true });
  });

  it('[STAGE-52] leaves the band out where it is out', () => {
    const performance = play(tune(), [1000, STOP_TIME], [1100, { kind: 'break', bars: 2 }]);
    expect(outs(performance, 8)).toBe('....Ho..');
    expect(hits(performance, 8)).toBe('......!!');
  });

  it('[STAGE-53] is written to the end of its section, in the passes that it is meant for', () => {
    expect(hits(play(tune({ 2: written() })), 32)).toBe('..!!!!!!..........!!!!!!........');
    expect(hits(play(tune({ 10: written() })), 17)).toBe('..........!!!!!!.');
    expect(hits(play(tune({ 2: written(2) })), 32)).toBe('..................!!!!!!........');
    expect(hits(play(tune({ 2: written('last') })), 32)).toBe('..................!!!!!!........');
  });

  it('[STAGE-53] is in force wherever one comes in, and where the last chorus was only called', () => {
    const performance = play(tune({ 2: written() }), [1000, { kind: 'goTo', leg: 'A', barIndex: 5 }]);
    expect(hits(performance, 9)).toBe('..!!!!!..');
    const open = road([leg('A', 'open', bars('a', 4, { 3: written('last') }))], { countBars: 0 });
    expect(hits(play(open, [10_000, { kind: 'lastChorus' }]), 8)).toBe('.......!');
  });

  it('[STAGE-53] is off to the end of its section where it is called off, and on again in the next pass', () => {
    const performance = play(tune({ 2: written() }), [5000, OFF]);
    expect(hits(performance, 32)).toBe('..!!..............!!!!!!........');
  });

  it('[STAGE-53] goes on beyond its section where it was called too', () => {
    const performance = play(tune({ 2: written() }), [5000, STOP_TIME], [24_000, OFF]);
    // Off at the end of bar 12: 600 + 12 · 2,000 = 24,600, beyond the notice of 500 ms at 24,500.
    expect(hits(performance, 20)).toBe('..!!!!!!!!!!......!!');
  });

  it('[STAGE-68] is announced where it begins, not where it is in force already', () => {
    const told = (performance: Performance, tMs: number) =>
      announced(performance, tMs).map(({ name, written: isWritten, barsToGo }) => [
        name,
        isWritten,
        barsToGo,
      ]);
    const chart = tune({ 2: written(), 4: written() });
    expect(told(play(chart), 700)).toEqual([['Stop-time', true, 2]]);
    expect(told(play(chart, [1000, STOP_TIME]), 5200)).toEqual([['Stop-time', false, 2]]);
    const called = play(tune({ 9: written() }), [1000, STOP_TIME]);
    expect(told(called, 12_000)).toEqual([]);
  });
});
