import { describe, expect, it } from 'vitest';
import { announced } from '../../../common/stage/announce.ts';
import type { Cue } from '../../../common/stage/cue.ts';
import { judge, judgeTakeBack } from '../../../common/stage/judge.ts';
import { locate } from '../../../common/stage/locate.ts';
import { missedAt } from '../../../common/stage/missed.ts';
import { barsAround } from '../../../common/stage/upcoming.ts';
import { at, play } from './support-read.ts';
import { bars, leg, mark, road, twelveBars } from './support-road.ts';

/** 4/4 at 120: pass 4 of the Solos begins at 100,600. */
const tune = twelveBars();
const LAST: Cue = { kind: 'lastChorus' };
const it_ = (cue: string): Cue => ({ kind: 'itHappened', cue });
/** Called 400 ms before the line, too late for it. */
const late = play(tune, [100_200, LAST]);

describe('It happened', () => {
  it('[STAGE-46] takes all to where they would be if the cue had landed at the line that it missed', () => {
    expect(missedAt(late, 101_600)).toEqual({ cue: 'c2', name: 'Last chorus', words: 'Head out' });
    const performance = play(tune, [100_200, LAST], [101_600, it_('c2')]);
    // History stays as it was: until the press the board was in the Solos.
    expect(at(performance, 101_599)).toBe('Solos 4.1+1.998');
    expect(at(performance, 101_600)).toBe('Head out 1.1+2');
    expect(locate(performance, 124_600)).toEqual({ state: 'ended', atMs: 124_600 });
    // It is shown for one more beat, like everything that lands.
    expect(announced(performance, 101_700)).toMatchObject([{ id: 'c2', landed: true, landsMs: 101_600 }]);
    expect(announced(performance, 102_100)).toEqual([]);
    expect(missedAt(performance, 101_700)).toBeNull();
    const { bars: around, now } = barsAround(performance, 101_700, 2, 1);
    expect(around.map(({ place, index }) => [place.leg, place.barIndex, index])).toEqual([
      ['Solos', 11, 47],
      ['Solos', 0, 48],
      ['Head out', 0, 49],
      ['Head out', 1, 50],
    ]);
    expect(now).toBe(2);
  });

  it('[STAGE-46] also where the cue was called within a bar after the line', () => {
    const performance = play(tune, [101_000, LAST], [102_000, it_('c2')]);
    expect(at(performance, 102_000)).toBe('Head out 1.1+2.8');
  });

  it('[STAGE-46] for less than a bar after the line, and for a cue that is on its way and missed it', () => {
    expect(judge(late, it_('c2'), 100_599)).toMatchObject({ ok: false, why: 'notMissed' });
    expect(judge(late, it_('c2'), 100_600)).toMatchObject({ ok: true, landsMs: 100_600, barsToGo: 0 });
    expect(judge(late, it_('c2'), 102_599)).toMatchObject({ ok: true });
    expect(judge(late, it_('c2'), 102_600)).toMatchObject({ ok: false, why: 'notMissed' });
    expect(missedAt(late, 102_600)).toBeNull();
    expect(judge(late, it_('c1'), 101_000)).toMatchObject({ ok: false, why: 'notPending' });
    expect(judge(late, it_('nobody'), 101_000)).toMatchObject({ ok: false, why: 'notPending' });
    expect(judge(late, it_('c2'), 124_600)).toMatchObject({ ok: false, why: 'notPending' });
    const back = play(tune, [100_200, LAST], [100_900, { kind: 'takeBack', cue: 'c2' }]);
    expect(judge(back, it_('c2'), 101_000)).toMatchObject({ ok: false, why: 'notPending' });
    // A stop lands within a pulse: nothing is missed.
    expect(judge(play(tune, [100_500, { kind: 'stop' }]), it_('c2'), 100_700)).toMatchObject({
      why: 'notMissed',
    });
    // Nothing would have landed at that line: the phrase goes on.
    const phrase = play(tune, [31_000, { kind: 'goTo', leg: 'Head out', barIndex: 0 }]);
    expect(judge(phrase, it_('c2'), 33_000)).toMatchObject({ why: 'notMissed' });
  });

  it('[STAGE-46] counts as landed: it can not be taken back, nor can the press', () => {
    const performance = play(tune, [100_200, LAST], [101_600, it_('c2')]);
    expect(judgeTakeBack(performance, 'c2', 102_000)).toMatchObject({ ok: false, why: 'landed' });
    expect(judgeTakeBack(performance, 'c3', 102_000)).toMatchObject({ ok: false, why: 'landed' });
    expect(judge(performance, it_('c2'), 102_000)).toMatchObject({ ok: false, why: 'notPending' });
    const more = play(tune, [100_200, LAST], [101_600, it_('c2')], [102_000, { kind: 'stop', at: 'pass' }]);
    expect(locate(more, 124_600)).toMatchObject({ state: 'ended', atMs: 124_600 });
  });

  it('[STAGE-46] adds the time that has gone by, at the tempos that would have been', () => {
    const slow = road(
      [
        leg('A', 'open', bars('a', 4)),
        leg('B', 1, bars('b', 4, { 0: { marks: [mark({ kind: 'tempo', bpm: 60 })] } })),
      ],
      { countBars: 0 },
    );
    // The line is at 8,600; 1,000 ms at 60 are one pulse.
    const performance = play(slow, [8500, LAST], [9600, it_('c2')]);
    expect(at(performance, 9600)).toBe('B 1.1+1');
    expect(at(performance, 12_600)).toBe('B 1.2+0');
    // A tempo called since lands as it would have: called at 8,700 for the pulse at 10,600.
    const called = play(slow, [8500, LAST], [8700, { kind: 'tempo', bpm: 240 }], [9700, it_('c2')]);
    expect(at(called, 9700)).toBe('B 1.1+1.1');
    expect(at(called, 10_600 + 250)).toBe('B 1.1+3');
  });

  it('[STAGE-46] for a break, a go to, a stop at the pass end and a tag alike', () => {
    const two = road([leg('A', 2, bars('a', 8)), leg('B', 1, bars('b', 8))], { countBars: 0 });
    const broken = play(two, [8400, { kind: 'break', bars: 2 }], [9100, it_('c2')]);
    expect(barsAround(broken, 9100, 0, 2).bars.map(({ out }) => out)).toEqual(['hit', 'out', undefined]);
    const went = play(two, [8400, { kind: 'goTo', leg: 'B', barIndex: 4 }], [9100, it_('c2')]);
    expect(at(went, 9100)).toBe('B 1.5+1');
    const stopped = play(two, [16_400, { kind: 'stop', at: 'pass' }], [17_000, it_('c2')]);
    expect(locate(stopped, 17_000)).toEqual({ state: 'ended', atMs: 17_000 });
    const more = play(two, [32_400, { kind: 'oneMore' }]);
    // Refused when it was called: the next leg comes first. Here helps.
    expect(judge(more, it_('c2'), 33_000)).toMatchObject({ why: 'notPending' });
  });

  it('[STAGE-46] holds the chord that a hold has just missed, in this bar or the one before', () => {
    const chords = Object.fromEntries(Array.from({ length: 8 }, (_, i) => [i, { chords: [0, 2] }]));
    const held = road([leg('A', 1, bars('a', 8, chords))], { countBars: 0 });
    const hold = (pressMs: number) => play(held, [1101, { kind: 'hold' }], [pressMs, it_('c2')]);
    expect(locate(hold(2000), 2000)).toMatchObject({
      state: 'held',
      sinceMs: 1600,
      place: { barIndex: 0, pulse: 2 },
    });
    expect(at(hold(3500), 3499)).toBe('A 1.2+1.798');
    expect(locate(hold(3500), 3500)).toMatchObject({ state: 'held', place: { barIndex: 0, pulse: 2 } });
  });

  it('[STAGE-46] not over a here: that says where the band is', () => {
    const here: Cue = { kind: 'here', leg: 'Solos', barIndex: 0 };
    const performance = play(tune, [100_200, LAST], [100_700, here]);
    expect(judge(performance, it_('c2'), 101_000)).toMatchObject({ why: 'notMissed' });
  });

  it('[STAGE-46] keeps what else is on its way, also what was called since', () => {
    const performance = play(
      tune,
      [100_000, { kind: 'break', bars: 1, at: 'phrase' }],
      [100_200, LAST],
      [100_700, { kind: 'tag' }],
      [101_600, it_('c3')],
    );
    expect(barsAround(performance, 101_600, 0, 1).bars.map(({ out }) => out)).toEqual(['hit', undefined]);
    expect(announced(performance, 102_200).map(({ name }) => name)).toEqual(['Tag']);
    expect(at(performance, 124_600)).toBe('tag:c4 1.1+0');
  });
});
