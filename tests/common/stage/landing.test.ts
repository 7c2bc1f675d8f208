import { describe, expect, it } from 'vitest';
import type { Called, Cue } from '../../../common/stage/cue.ts';
import { judge, judgeTakeBack } from '../../../common/stage/judge.ts';
import { locate } from '../../../common/stage/locate.ts';
import { perform } from '../../../common/stage/perform.ts';
import { at, outs, play, told } from './support-read.ts';
import { bars, leg, road, START, take, twelveBars } from './support-road.ts';

const two = bars('a', 2);
const tune = road([leg('Head', 2, two), leg('Solos', 'open', two), leg('Out', 1, two)], { countBars: 0 });
const eight = road([leg('A', 'open', bars('a', 8)), leg('B', 1, bars('b', 8))], { countBars: 0 });
const LAST: Cue = { kind: 'lastChorus' };
const goTo = (id: string, barIndex: number): Cue => ({ kind: 'goTo', leg: id, barIndex });

describe('Several cues at one boundary', () => {
  it('[STAGE-15] stop wins over everything', () => {
    const stopAtPass: Cue = { kind: 'stop', at: 'pass' };
    const calls = [
      [1000, goTo('B', 0)],
      [1000, LAST],
      [1000, stopAtPass],
    ] as const;
    expect(told(play(road([leg('A', 2, two), leg('B', 1, two)], { countBars: 0 }), ...calls))).toEqual([
      ...['A 1.1', 'A 1.2', 'end'],
    ]);
  });

  it('[STAGE-15] of two go to the later decides, and the earlier again where that is taken back', () => {
    const calls = [
      [1000, goTo('A', 2)],
      [1100, goTo('B', 4)],
    ] as const;
    expect(told(play(eight, ...calls), 5).at(-1)).toBe('B 1.5');
    expect(told(play(eight, ...calls, [1200, { kind: 'takeBack', cue: 'c3' }]), 5).at(-1)).toBe('A 1.3');
  });

  it('[STAGE-15] go to decides the place against a pass count', () => {
    expect(told(play(tune, [9000, LAST], [9100, goTo('Head', 1)]), 6).slice(4)).toEqual([
      'Solos 1.1',
      'Solos 1.2',
    ]);
    expect(told(play(tune, [9000, LAST], [9100, goTo('Head', 1)]), 7).at(-1)).toBe('Head 1.2');
  });

  it('[STAGE-15] a go to at the end of the road leaves a tag waiting for the next end', () => {
    const once = road([leg('A', 1, two), leg('B', 1, two)], { countBars: 0 });
    const performance = play(once, [5000, { kind: 'tag', bars: 1, times: 2 }], [5100, goTo('A', 0)]);
    expect(told(performance)).toEqual([
      ...['A 1.1', 'A 1.2', 'B 1.1', 'B 1.2', 'A 1.1', 'A 1.2', 'B 1.1', 'B 1.2'],
      ...['tag:c2 1.1', 'end'],
    ]);
  });

  it('[STAGE-15] a break and a go to land together: the bar gone to is hit', () => {
    const performance = play(eight, [1000, { kind: 'break', bars: 2 }], [1100, goTo('B', 4)]);
    expect(outs(performance, 7)).toBe('....Ho.');
    expect(told(performance, 5).at(-1)).toBe('B 1.5');
  });
});

describe('Boundaries', () => {
  it('[STAGE-11] a pass end is a phrase end even where no phrase is marked', () => {
    const plain = road([leg('A', 'open', bars('a', 2, { 1: { phraseEnd: false } }))], { countBars: 0 });
    expect(judge(play(plain), { kind: 'break', bars: 1 }, 1000)).toMatchObject({ ok: true, landsMs: 4600 });
  });

  it('[STAGE-11] in the count-in phrase cues land on the downbeat and pass cues at the first pass end', () => {
    const counted = { ...tune, countBars: 2 };
    expect(judge(play(counted), { kind: 'break', bars: 1 }, 1000)).toMatchObject({
      landsMs: 4600,
      barsToGo: 2,
    });
    expect(judge(play(counted), LAST, 1000)).toMatchObject({ landsMs: 8600, barsToGo: 4 });
    expect(judge(play(counted), { kind: 'break', bars: 1 }, 4200)).toMatchObject({ landsMs: 8600 });
  });

  it('[STAGE-10] lands on a line that notice reaches within a millionth of a pulse', () => {
    const third = road([leg('A', 'open', two)], { countBars: 0, tempoBpm: 90 });
    // A bar lasts 2,666.67 ms, a pulse 666.67: called one pulse before the second line, as nearly as doubles go.
    const lineMs = 600 + (8 * 60_000) / 90;
    const verdict = judge(play(third), { kind: 'break', bars: 1 }, lineMs - 60_000 / 90);
    expect(verdict.ok && verdict.landsMs).toBeCloseTo(lineMs, 6);
    expect(judge(play(third), { kind: 'break', bars: 1 }, lineMs - 666)).toMatchObject({ barsToGo: 3 });
  });
});

describe('Sense', () => {
  it('[STAGE-12] is asked again on landing: a cue that makes none then is dropped', () => {
    // Called for the open Solos; by then the band has been sent to the Out, which is the last already.
    const performance = play(twelveBars(), [30_000, LAST], [31_000, goTo('Head out', 8)]);
    expect(told(performance, 21).slice(16)).toEqual([
      ...['Head out 1.9', 'Head out 1.10', 'Head out 1.11', 'Head out 1.12'],
      'end',
    ]);
    expect(judgeTakeBack(performance, 'c2', 70_000)).toMatchObject({ ok: false });
  });

  it('[STAGE-7] what makes no sense in a take changes nothing', () => {
    const calls = [
      [1000, { kind: 'goOn' }],
      [1000, { kind: 'start' }],
      [1000, { kind: 'wave' } as unknown as Cue],
      [1000, { kind: 'takeBack', cue: 'nothing' }],
    ] as const;
    expect(told(play(tune, ...calls), 9)).toEqual(told(play(tune), 9));
    expect(judge(play(tune), { kind: 'wave' } as unknown as Cue, 1000)).toMatchObject({ why: 'unknownCue' });
  });

  it('[STAGE-7] an earlier stamp counts as the one before, a repeated id is ignored', () => {
    const cues: Called[] = [
      { id: 'a', cue: START, calledAtMs: 1000 },
      { id: 'b', cue: { kind: 'here', leg: 'Solos', barIndex: 0 }, calledAtMs: 400 },
      { id: 'b', cue: { kind: 'stop' }, calledAtMs: 5000 },
    ];
    const performance = perform({ ...take(tune, []), cues });
    expect(locate(performance, 999)).toEqual({ state: 'waiting' });
    expect(at(performance, 1000)).toBe('Solos 1.1+0');
    expect(at(performance, 9000)).toBe('Solos 3.1+0');
  });
});

describe('Take back', () => {
  it('[STAGE-14] folds later cues again without the one taken back', () => {
    const more: Cue = { kind: 'oneMore' };
    // One more made sense only because of the last chorus before it.
    const performance = play(tune, [9000, LAST], [9100, more], [9200, { kind: 'takeBack', cue: 'c2' }]);
    expect(told(performance, 12).at(-1)).toBe('Solos 4.2');
    expect(judgeTakeBack(performance, 'c3', 9300)).toMatchObject({ ok: false, why: 'void' });
  });

  it('[STAGE-14] is refused for what nobody called, what has landed, what is off already', () => {
    const performance = play(tune, [9000, LAST], [9200, { kind: 'takeBack', cue: 'c2' }]);
    expect(judgeTakeBack(performance, 'nothing', 9300)).toMatchObject({ ok: false, why: 'unknownCue' });
    expect(judgeTakeBack(performance, 'c3', 9300)).toMatchObject({ ok: false, why: 'unknownCue' });
    expect(judgeTakeBack(performance, 'c2', 9300)).toMatchObject({ ok: false, why: 'void' });
    expect(judgeTakeBack(performance, 'c1', 9300)).toMatchObject({ ok: false, why: 'landed' });
  });

  it('[STAGE-14] in a take after the landing changes nothing', () => {
    const late = play(tune, [9000, LAST], [12_600, { kind: 'takeBack', cue: 'c2' }]);
    expect(at(late, 13_000)).toBe('Out 1.1+0.8');
    const inTime = play(tune, [9000, LAST], [12_599, { kind: 'takeBack', cue: 'c2' }]);
    expect(at(inTime, 13_000)).toBe('Solos 2.1+0.8');
  });

  it('[STAGE-14] brings a tempo back before it lands', () => {
    const performance = play(
      tune,
      [1000, { kind: 'tempo', bpm: 60 }],
      [1500, { kind: 'takeBack', cue: 'c2' }],
    );
    expect(at(performance, 4600)).toBe('Head 2.1+0');
  });
});

describe('While waiting and when ended', () => {
  it('[STAGE-35] only what makes sense then is taken', () => {
    const waiting = perform(take(tune, []));
    const ended = play(tune, [1000, { kind: 'stop' }]);
    const cues: Record<string, Cue> = {
      callTune: { kind: 'callTune', chart: 'x' },
      start: START,
      stop: { kind: 'stop' },
      lastChorus: LAST,
      oneMore: { kind: 'oneMore' },
      goOn: { kind: 'goOn' },
      tag: { kind: 'tag' },
      break: { kind: 'break', bars: 2 },
      goTo: goTo('Head', 0),
      tempo: { kind: 'tempo', bpm: 90 },
      here: { kind: 'here', leg: 'Head', barIndex: 0 },
      adopt: { kind: 'adopt', road: tune },
    };
    const taken = (performance: ReturnType<typeof perform>) =>
      Object.keys(cues).filter((kind) => judge(performance, cues[kind] as Cue, 9000).ok);
    expect(taken(waiting)).toEqual(['callTune', 'start', 'tempo', 'here', 'adopt']);
    expect(taken(ended)).toEqual(['callTune', 'start', 'adopt']);
    expect(judge(waiting, cues['tempo'] as Cue, 9000)).toMatchObject({ landsMs: 9000, barsToGo: 0 });
  });

  it('[STAGE-18] a tune is called only while waiting or ended', () => {
    const tuneCue: Cue = { kind: 'callTune', chart: 'x' };
    expect(judge(perform(take(tune, [])), tuneCue, 0)).toMatchObject({ ok: true });
    expect(judge(play(tune), tuneCue, 9000)).toMatchObject({ ok: false, why: 'rolling' });
  });

  it('[STAGE-12] says every refusal in words', () => {
    for (const cue of [goTo('nowhere', 0), { kind: 'goOn' }, { kind: 'tempo', bpm: 1 }, START] as Cue[]) {
      const verdict = judge(play(tune), cue, 1000);
      expect(verdict.ok).toBe(false);
      if (!verdict.ok) expect(verdict.words).toMatch(/^[A-Z].*\.$/);
    }
  });
});
