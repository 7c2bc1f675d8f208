import { describe, expect, it } from 'vitest';
import type { Mark } from '../../../common/chart/bar-music.ts';
import { announced } from '../../../common/stage/announce.ts';
import type { Cue } from '../../../common/stage/cue.ts';
import { dynamicAt, feelAt } from '../../../common/stage/in-force.ts';
import { judge } from '../../../common/stage/judge.ts';
import { locate } from '../../../common/stage/locate.ts';
import type { Performance } from '../../../common/stage/perform.ts';
import { allBars, play } from './support-read.ts';
import { type BarSpec, bars, leg, mark, road } from './support-road.ts';

const feel = (called: 'half' | 'double' | 'as written'): Cue => ({ kind: 'feel', feel: called });
const dynamic = (called: 'down' | 'build' | 'as written'): Cue => ({ kind: 'dynamic', dynamic: called });
const is = (words: string): Mark => ({ kind: 'feel', feel: words });
const sign = (words: string): Mark => ({ kind: 'dynamic', sign: words });

/** Eight bars, twice, a bar every 2 s from 600 on. */
const tune = (others: Record<number, BarSpec> = {}) =>
  road([leg('A', 2, bars('a', 8, others))], { countBars: 0 });
const feels = (performance: Performance, most: number) =>
  allBars(performance, most).map((bar) => bar.feel ?? '');
const told = (performance: Performance, tMs: number) =>
  announced(performance, tMs).map(({ family, name, detail }) => `${family}: ${name} ${detail}`.trim());

describe('The feel', () => {
  it('[STAGE-54] changes at the phrase and lasts until it is called as written, at the same speed', () => {
    const performance = play(tune(), [1000, feel('half')], [17_000, feel('as written')]);
    expect(feels(performance, 14)).toEqual([...Array(4).fill(''), ...Array(8).fill('half-time'), '', '']);
    expect([8599, 8600, 24_599, 24_600].map((t) => feelAt(performance, t))).toEqual([
      null,
      'half',
      'half',
      null,
    ]);
    expect(allBars(performance, 14).map(({ startMs }) => startMs)).toEqual(
      allBars(play(tune()), 14).map(({ startMs }) => startMs),
    );
    expect(told(performance, 7000)).toEqual(['feel: Half-time', 'feel: Feel as written']);
    expect(told(play(tune(), [1000, feel('double')]), 7000)).toEqual(['feel: Double-time']);
  });

  it('[STAGE-54] is refused where it is so already', () => {
    expect(judge(play(tune()), feel('as written'), 1000)).toMatchObject({ why: 'asWritten' });
    const half = play(tune(), [1000, feel('half')]);
    expect(judge(half, feel('half'), 1500)).toMatchObject({
      why: 'feelAlready',
      words: 'It is half-time already.',
    });
    expect(judge(half, feel('double'), 1500)).toMatchObject({ ok: true });
    expect(judge(half, { kind: 'feel', feel: 'wobbly' } as unknown as Cue, 1500)).toMatchObject({
      why: 'badFeel',
    });
  });

  it('[STAGE-54] goes by what is written beneath what was called', () => {
    const chart = tune({
      1: { marks: [mark(is('double-time'), 2)] },
      3: { marks: [mark(is('swing'))] },
      6: { marks: [mark(is('in 2'), 0, 2)] },
    });
    // As played: what was written last stays in force over the top.
    const plain = ['', 'double-time', 'double-time', ...Array(6).fill('swing'), 'double-time', 'double-time'];
    expect(feels(play(chart), 16)).toEqual([...plain, ...Array(3).fill('swing'), 'in 2', 'in 2']);
    const called = play(chart, [5000, feel('half')], [14_000, feel('as written')]);
    expect(feels(called, 11)).toEqual([
      ...plain.slice(0, 3),
      'swing',
      ...Array(4).fill('half-time'),
      ...plain.slice(8),
    ]);
  });

  it('[STAGE-68] is announced where it is written, not what is in force already or covered', () => {
    const chart = tune({ 2: { marks: [mark(is('swing'))] }, 4: { marks: [mark(is('swing'))] } });
    expect(told(play(chart), 700)).toEqual(['feel: Swing']);
    expect(told(play(chart), 10_000)).toEqual([]);
    const late = tune({ 6: { marks: [mark(is('swing'))] } });
    expect(told(play(late, [1000, feel('half')]), 10_000)).toEqual([]);
    expect(told(play(late), 10_000)).toEqual(['feel: Swing']);
  });
});

describe('Dynamics', () => {
  it('[STAGE-55] change on the pulse and last until they are called as written', () => {
    const performance = play(
      tune(),
      [1300, dynamic('down')],
      [9000, dynamic('build')],
      [17_000, dynamic('as written')],
    );
    // Notice of 500 ms is over at 1,800: the next pulse is at 2,100.
    expect([2099, 2100, 9599, 9600, 17_599, 17_600].map((t) => dynamicAt(performance, t))).toEqual([
      ...[null, 'down', 'down', 'build', 'build', null],
    ]);
    expect(told(play(tune(), [1300, dynamic('down')]), 1900)).toEqual(['feel: Bring it down']);
    expect(locate(performance, 2100)).toMatchObject({ state: 'playing', place: { barIndex: 0, pulse: 3 } });
  });

  it('[STAGE-55] land on a count of the count-in, and are refused where they are so already', () => {
    const counted = play({ ...tune(), countBars: 2 }, [1000, dynamic('down')]);
    expect([1599, 1600].map((t) => dynamicAt(counted, t))).toEqual([null, 'down']);
    expect(judge(counted, dynamic('down'), 3000)).toMatchObject({ why: 'dynamicAlready' });
    expect(judge(counted, dynamic('as written'), 3000)).toMatchObject({ ok: true });
    expect(judge(play(tune()), dynamic('as written'), 3000)).toMatchObject({ why: 'asWritten' });
  });

  it('[STAGE-55] [STAGE-68] are written from their pulse until the next, beneath what was called', () => {
    const chart = tune({
      0: { marks: [mark(sign('p'))] },
      2: { marks: [mark(sign('cresc'), 2), mark(sign('ff'), 3)] },
      5: { marks: [mark(sign('dim'), 1, 'last')] },
    });
    const performance = play(chart);
    // Bar 3 begins at 4,600; pulse 2 at 5,600. The last pass begins at 16,600, bar 6 of it at 26,600.
    const times = [600, 5599, 5600, 6100, 16_599, 16_600, 27_099, 27_100];
    const signs = ['p', 'p', 'cresc', 'ff', 'ff', 'p', 'ff', 'dim'];
    expect(times.map((t) => dynamicAt(performance, t))).toEqual(signs);
    expect(told(performance, 1200).slice(0, 2)).toEqual(['feel: Dynamics cresc', 'feel: Dynamics ff']);
    const down = play(chart, [1300, dynamic('down')], [9000, dynamic('as written')]);
    expect(times.slice(1, 6).map((t) => dynamicAt(down, t))).toEqual(['down', 'down', 'down', 'ff', 'p']);
    expect(told(down, 3000)[0]).toBe('feel: Dynamics as written');
  });
});
