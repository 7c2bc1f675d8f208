import { describe, expect, it } from 'vitest';
import type { Cue } from '../../../common/stage/cue.ts';
import { lastStopAt, roadAt } from '../../../common/stage/in-force.ts';
import { judge, judgeTakeBack } from '../../../common/stage/judge.ts';
import { locate } from '../../../common/stage/locate.ts';
import { at, play, told } from './support-read.ts';
import { bars, leg, mark, road, twelveBars } from './support-road.ts';

const RESUME: Cue = { kind: 'resume' };
const STOP: Cue = { kind: 'stop' };

/** 4/4 at 120: the Solos begin at 28,600, a stop called at 30,000 lands at 30,600, with their second bar. */
const tune = twelveBars();
const stopped = play(tune, [30_000, STOP]);

describe('Resume', () => {
  it('[STAGE-45] goes on where the band would be if nobody had stopped', () => {
    expect(locate(stopped, 30_600)).toEqual({ state: 'ended', atMs: 30_600 });
    const performance = play(tune, [30_000, STOP], [35_000, RESUME]);
    // 6,400 ms into the Solos: 12.8 pulses.
    expect(at(performance, 35_000)).toBe('Solos 1.4+0.8');
    expect(at(performance, 52_600)).toBe('Solos 2.1+0');
    // What was seen before stays as it was.
    expect(locate(performance, 34_999)).toEqual({ state: 'ended', atMs: 30_600 });
    expect(told(performance, 30)).toEqual(told(play(tune), 30));
  });

  it('[STAGE-45] brings back what was on its way, and what lands meanwhile', () => {
    const performance = play(
      tune,
      [29_000, { kind: 'lastChorus' }],
      [29_200, { kind: 'tempo', bpm: 60 }],
      [29_550, STOP],
      [31_000, RESUME],
    );
    // The tempo lands on the pulse on which the take was stopped: at 30,100, with pulse 3 of the first bar.
    expect(locate(performance, 30_100)).toMatchObject({ state: 'ended', atMs: 30_100 });
    expect(at(performance, 31_100)).toBe('Solos 1.2+0');
    expect(at(performance, 31_100 + 44_000)).toBe('Head out 1.1+0');
    const over = play(tune, [51_500, { kind: 'lastChorus' }], [51_600, STOP], [53_000, RESUME]);
    expect(at(over, 53_100)).toBe('Head out 1.1+1');
  });

  it('[STAGE-45] within 16 bars of time, once, and only after a stop', () => {
    const last = 30_600 + 16 * 2000;
    expect(judge(stopped, RESUME, last)).toMatchObject({ ok: true });
    expect(judge(stopped, RESUME, last + 1)).toMatchObject({ ok: false, why: 'longAgo' });
    const short = road([leg('A', 1, bars('a', 4))], { countBars: 0 });
    expect(judge(play(short), RESUME, 9000)).toMatchObject({ ok: false, why: 'notStopped' });
    expect(judge(play(short), RESUME, 5000)).toMatchObject({ ok: false, why: 'notStopped' });
    expect(judge(play(short, [7000, STOP]), RESUME, 8599)).toMatchObject({ ok: true });
    expect(judge(play(short, [7000, STOP]), RESUME, 8600)).toMatchObject({ ok: false, why: 'overByNow' });
    const on = play(tune, [30_000, STOP], [35_000, RESUME]);
    expect(judge(on, RESUME, 35_100)).toMatchObject({ ok: false, why: 'notStopped' });
    expect(judgeTakeBack(on, 'c2', 36_000)).toMatchObject({ ok: false, why: 'landed' });
    const again = play(tune, [30_000, STOP], [35_000, RESUME], [36_000, STOP], [40_000, RESUME]);
    expect(at(again, 40_600)).toBe('Solos 1.7+0');
  });

  it('[STAGE-45] after a stop at the end of a pass, in a count-in and in a hold', () => {
    const atPass = play(tune, [30_000, { kind: 'stop', at: 'pass' }], [53_000, RESUME]);
    expect(locate(atPass, 52_999)).toMatchObject({ state: 'ended', atMs: 52_600 });
    expect(at(atPass, 53_100)).toBe('Solos 2.1+1');
    const counted = play(tune, [700, STOP], [2100, RESUME]);
    expect(locate(counted, 2100)).toMatchObject({ state: 'count', pulsesToCome: 5 });
    const holding = road([leg('A', 1, bars('a', 4, { 1: { marks: [mark({ kind: 'hold' })] } }))], {
      countBars: 0,
    });
    const held = play(holding, [4000, STOP], [9000, RESUME], [12_000, { kind: 'release' }]);
    expect(locate(held, 4500)).toMatchObject({ state: 'ended' });
    expect(locate(held, 9000)).toMatchObject({ state: 'held', sinceMs: 2600, place: { barIndex: 1 } });
    expect(at(held, 12_500)).toBe('A 1.3+0');
  });

  it('[STAGE-45] goes on with the arrangement that was being played', () => {
    const other = road([leg('Solos', 'open', bars('b', 4))]);
    const performance = play(
      tune,
      [30_000, STOP],
      [31_000, { kind: 'adopt', road: other }],
      [35_000, RESUME],
    );
    expect(roadAt(performance, 33_000).legs).toHaveLength(1);
    expect(roadAt(performance, 35_000)).toEqual(roadAt(stopped, 29_000));
    expect(at(performance, 36_600)).toBe('Solos 1.5+0');
  });

  it('[STAGE-45] knows where the take was stopped', () => {
    expect(lastStopAt(stopped)).toEqual({ leg: 'Solos', pass: 1, barIndex: 0, pulse: 4 });
    expect(lastStopAt(play(tune, [29_600, STOP]))).toMatchObject({ barIndex: 0, pulse: 3 });
    expect(lastStopAt(play(tune))).toBeNull();
    expect(lastStopAt(play(tune, [30_000, STOP], [35_000, RESUME]))).toBeNull();
  });
});
