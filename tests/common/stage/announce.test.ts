import { describe, expect, it } from 'vitest';
import { announced } from '../../../common/stage/announce.ts';
import type { Cue } from '../../../common/stage/cue.ts';
import { perform } from '../../../common/stage/perform.ts';
import { play } from './support-read.ts';
import { bars, leg, mark, road, START, take, twelveBars } from './support-road.ts';

const say = (performance: ReturnType<typeof perform>, tMs: number): string[] =>
  announced(performance, tMs).map(({ name, detail }) => (detail === '' ? name : `${name} · ${detail}`));
const first = (performance: ReturnType<typeof perform>, tMs: number) => announced(performance, tMs)[0];
const LAST: Cue = { kind: 'lastChorus' };
const eight = bars('a', 8, { 4: { letter: 'B' } });
const tune = road([leg('Head', 2, eight), leg('Solos', 'open', eight), leg('Out', 1, eight)], {
  countBars: 0,
});

describe('What the stands announce', () => {
  it('[STAGE-16] names a last chorus by what follows and counts bar lines, then beats', () => {
    const performance = play(twelveBars(), [30_000, LAST]);
    expect(first(performance, 30_700)).toMatchObject({
      id: 'c2',
      kind: 'lastChorus',
      family: 'close',
      name: 'Last chorus',
      detail: 'Head out',
      written: false,
      landsMs: 52_600,
      landsAt: { leg: 'Head out', pass: 1, barIndex: 0, pulse: 0 },
      barsToGo: 11,
      landed: false,
      canTakeBack: true,
    });
    expect(first(performance, 50_600)).toMatchObject({ barsToGo: 1, beatsToGo: 4 });
    expect(first(performance, 52_300)).toMatchObject({ barsToGo: 1, beatsToGo: 1 });
  });

  it('[STAGE-16] shows a cue for one more beat after it has landed', () => {
    const performance = play(twelveBars(), [30_000, LAST]);
    const landed = { barsToGo: 0, beatsToGo: 0, landed: true, canTakeBack: false };
    expect(first(performance, 52_600)).toMatchObject(landed);
    expect(first(performance, 53_099)).toMatchObject(landed);
    expect(announced(performance, 53_100)).toEqual([]);
  });

  it('[STAGE-16] tells each cue by its family, its name and what follows', () => {
    const told = (cue: Cue, onRoad = tune) => {
      const one = first(play(onRoad, [1000, cue]), 1500);
      return one && `${one.family}: ${one.name} · ${one.detail}`;
    };
    const vamp = road([leg('Vamp', 'vamp', eight), leg('Out', 1, eight)], { countBars: 0 });
    expect(told({ kind: 'stop', at: 'pass' })).toBe('out: Stop · end of Head');
    expect(told({ kind: 'break', bars: 2 })).toBe('out: Break · 2 bars');
    expect(told({ kind: 'break', bars: 1, at: 'lastBars' })).toBe('out: Break · 1 bar');
    expect(told({ kind: 'oneMore' })).toBe('more: One more · Head again');
    expect(told({ kind: 'goOn' }, vamp)).toBe('close: Go on · Out');
    expect(told(LAST, vamp)).toBe('close: Go on · Out');
    expect(told({ kind: 'goTo', leg: 'Head', barIndex: 4 })).toBe('move: Go to · letter B');
    expect(told({ kind: 'goTo', leg: 'Out', barIndex: 4 })).toBe('move: Go to · Out, letter B');
    expect(told({ kind: 'goTo', leg: 'Head', barIndex: 2 })).toBe('move: Go to · bar 3');
    expect(told({ kind: 'goTo', leg: 'Head', barIndex: 0 })).toBe('move: Go to · the top');
    expect(told({ kind: 'goTo', leg: 'Solos', barIndex: 0 })).toBe('move: Go to · Solos');
    expect(told({ kind: 'tempo', bpm: 90 })).toBe('feel: Tempo · 90');
    expect(told({ kind: 'tempo', bpm: 90, overBars: 4 })).toBe('feel: Tempo · 90 over 4 bars');
    expect(told({ kind: 'adopt', road: tune })).toBe('move: New arrangement · Head');
    expect(told({ kind: 'tag' })).toBe('more: Tag · last 4, 3 times');
  });

  it('[STAGE-16] says so where one more comes between the last chorus and the end', () => {
    const performance = play(tune, [33_000, LAST], [33_100, { kind: 'oneMore' }]);
    expect(say(performance, 34_000)).toEqual(['Last chorus · after one more', 'One more · Solos again']);
  });

  it('[STAGE-16] says that nobody knows when a tag comes while the solos are open', () => {
    const performance = play(tune, [1000, { kind: 'tag' }]);
    expect(first(performance, 1500)).toMatchObject({
      landsMs: Number.POSITIVE_INFINITY,
      barsToGo: Number.POSITIVE_INFINITY,
      canTakeBack: true,
    });
    const known = play(tune, [1000, { kind: 'tag' }], [33_000, LAST]);
    expect(announced(known, 34_000).map(({ kind, barsToGo }) => [kind, barsToGo])).toEqual([
      ['lastChorus', 8],
      ['tag', 16],
    ]);
  });

  it('[STAGE-12] leaves out a cue that will make no sense when its line comes', () => {
    const performance = play(
      twelveBars(),
      [30_000, LAST],
      [31_000, { kind: 'goTo', leg: 'Head out', barIndex: 8 }],
    );
    expect(say(performance, 31_500)).toEqual(['Go to · Head out, bar 9']);
  });

  it('[STAGE-16] counts the bars of the count-in too', () => {
    const counted = play({ ...tune, countBars: 2 }, [700, { kind: 'break', bars: 2 }]);
    expect(first(counted, 700)).toMatchObject({ name: 'Break', barsToGo: 2 });
    expect(first(counted, 3000)).toMatchObject({ barsToGo: 1, beatsToGo: 4 });
  });

  it('[STAGE-16] carries who called it, and says nothing of what happened at once', () => {
    const waiting = take(tune, [[0, START]]);
    const performance = perform({
      ...waiting,
      cues: [...waiting.cues, { id: 'x', cue: { kind: 'stop' }, calledAtMs: 1000, by: 'ines' }],
    });
    expect(announced(performance, 1200)).toMatchObject([{ id: 'x', by: 'ines', barsToGo: 0, beatsToGo: 1 }]);
    expect(announced(perform(waiting), 100)).toEqual([]);
  });
});

describe('What is written in the chart', () => {
  const marks = {
    2: { marks: [mark({ kind: 'break', bars: 2 })] },
    4: { marks: [mark({ kind: 'key', key: 'G' }), mark({ kind: 'tempo', bpm: 60 }, 2)] },
    6: { marks: [mark({ kind: 'fill' }, 2), mark({ kind: 'short' })] },
  };
  const written = road([leg('A', 1, bars('a', 16, marks))], { countBars: 0 });

  it('[STAGE-17] is announced like a cue, soonest first, and can not be taken back', () => {
    const all = announced(play(written), 700);
    expect(all.map(({ name, detail }) => `${name} · ${detail}`)).toEqual([
      ...['Break · 2 bars', 'Key · concert G major', 'Tempo · 60', 'Fill · '],
    ]);
    expect(all[0]).toMatchObject({
      written: true,
      canTakeBack: false,
      barsToGo: 2,
      landsMs: 4600,
      family: 'out',
    });
    // Two pulses of the bar at 120, then 60: the fill two bars on lies at pulse 10 of the slower tempo.
    expect(all[2]).toMatchObject({ landsMs: 8600 + 1000, landsAt: { barIndex: 4, pulse: 2 } });
    expect(all[3]).toMatchObject({ landsMs: 9600 + 8000, barsToGo: 6 });
  });

  it('[STAGE-17] is not announced beyond two phrases and what is under way, nor once it has begun', () => {
    const far = road([leg('A', 1, bars('a', 24, { 14: { marks: [mark({ kind: 'fill' })] } }))], {
      countBars: 0,
    });
    expect(say(play(far), 700)).toEqual([]);
    expect(say(play(far), 600 + 4 * 2000)).toEqual(['Fill']);
    expect(first(play(written), 4600)).toMatchObject({ name: 'Break', landed: true, barsToGo: 0 });
    expect(first(play(written), 5100)).toMatchObject({ name: 'Key', landed: false });
  });

  it('[STAGE-17] says a key as it sounds, and not a tempo at which the band goes already', () => {
    const calls = [{ id: 'c1', cue: START, calledAtMs: 0 }];
    const higher = perform({ ...take(written, []), semitones: 1, cues: calls });
    expect(say(higher, 700)).toContain('Key · concert A♭ major');
    const same = {
      1: { marks: [mark({ kind: 'tempo', bpm: 120 })] },
      2: { marks: [mark({ kind: 'tempo', bpm: 90 })] },
    };
    expect(say(play(road([leg('A', 1, bars('a', 4, same))], { countBars: 0 })), 700)).toEqual(['Tempo · 90']);
  });

  it('[STAGE-17] tells a metre that comes back', () => {
    const waltz = road([leg('A', 1, bars('a', 4, { 2: { pulses: 3 } }))], { countBars: 0 });
    expect(announced(play(waltz), 700).map(({ detail, landsMs }) => [detail, landsMs])).toEqual([
      ['3/4', 4600],
      ['4/4', 6100],
    ]);
  });

  it('[STAGE-17] tells a written tag where it begins', () => {
    const tag = leg('Tag', 2, eight.slice(4), { tag: { timesInAll: 3 } });
    const on = road([leg('Head', 1, eight), tag], { countBars: 0 });
    expect(announced(play(on), 700)).toMatchObject([{ name: 'Tag', detail: 'last 4, 3 times', barsToGo: 8 }]);
  });

  it('[STAGE-34] is announced in its pass only', () => {
    const metre = { text: '3/4', upper: 3, lower: 4, pulses: 3, groups: [3], compound: false };
    const reach = {
      1: {
        marks: [mark({ kind: 'fill' }, 0, 2), mark({ kind: 'metre', metre }, 0, 'last')],
      },
    };
    const on = road([leg('A', 3, bars('a', 4, reach))], { countBars: 0 });
    const heard = (tMs: number) =>
      announced(play(on), tMs).map(({ name, landsAt }) => `${name} ${landsAt.pass}`);
    expect(heard(700)).toEqual(['Fill 2', 'Metre 3', 'Metre 3']);
    expect(heard(600 + 8000 + 3000)).toEqual(['Metre 3', 'Metre 3']);
  });
});
