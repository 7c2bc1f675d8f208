import { describe, expect, it } from 'vitest';
import { announced } from '../../../common/stage/announce.ts';
import type { Cue } from '../../../common/stage/cue.ts';
import { loopAt, tempoAt } from '../../../common/stage/in-force.ts';
import { judge } from '../../../common/stage/judge.ts';
import { locate } from '../../../common/stage/locate.ts';
import { allBars, at, play, told } from './support-read.ts';
import { type BarSpec, bars, leg, mark, road } from './support-road.ts';

type Loop = Extract<Cue, { kind: 'loop' }>;
const loop = (from: number, to: number, more: Partial<Loop> = {}): Cue => ({
  kind: 'loop',
  leg: 'A',
  from,
  to,
  ...more,
});
const OFF: Cue = { kind: 'loopOff' };

/** A, 12 bars in phrases of four, twice; then B, four bars. A bar every 2 s from 600 on. */
const tune = (others: Record<number, BarSpec> = {}) =>
  road([leg('A', 2, bars('a', 12, others)), leg('B', 2, bars('b', 4))], { countBars: 0 });
const barsOf = (performance: ReturnType<typeof play>, from: number, to: number) =>
  told(performance, to).slice(from);

describe('A loop', () => {
  it('[STAGE-61] plays its bars again and again from the phrase on', () => {
    // Called in bar 1; the phrase ends with bar 4, at 8,600. A round of two bars lasts 4,000.
    const performance = play(tune(), [1000, loop(4, 5)]);
    expect(told(performance, 10)).toEqual([
      ...['A 1.1', 'A 1.2', 'A 1.3', 'A 1.4'],
      ...['A 1.5', 'A 1.6', 'A 1.5', 'A 1.6', 'A 1.5', 'A 1.6'],
    ]);
    expect(
      allBars(performance, 8)
        .slice(3)
        .map((bar) => bar.loop),
    ).toEqual([
      undefined,
      { from: 4, to: 5, round: 1 },
      { from: 4, to: 5, round: 1 },
      { from: 4, to: 5, round: 2 },
      { from: 4, to: 5, round: 2 },
    ]);
    expect(at(performance, 8600 + 100 * 4000 + 2500)).toBe('A 1.6+1');
    expect([8599, 8600, 12_599, 12_600].map((t) => loopAt(performance, t)?.round)).toEqual([
      undefined,
      1,
      1,
      2,
    ]);
    expect(announced(performance, 1500)).toMatchObject([
      { family: 'move', name: 'Loop', detail: 'bars 5–6', landsMs: 8600, barsToGo: 4 },
    ]);
  });

  it('[STAGE-61] loops a bar, and bars of another leg in pass 1', () => {
    expect(barsOf(play(tune(), [1000, loop(2, 2)]), 3, 7)).toEqual(['A 1.4', 'A 1.3', 'A 1.3', 'A 1.3']);
    const other = play(tune(), [1000, { kind: 'loop', leg: 'B', from: 0, to: 1 }], [9000, OFF]);
    expect(barsOf(other, 3, 9)).toEqual(['A 1.4', 'B 1.1', 'B 1.2', 'B 1.3', 'B 1.4', 'B 2.1']);
    expect(announced(other, 1500)).toMatchObject([{ detail: 'B, bars 1–2' }, { name: 'Loop off' }]);
    expect(announced(play(tune(), [1000, loop(2, 2)]), 1500)).toMatchObject([{ detail: 'bar 3' }]);
  });

  it('[STAGE-61] is refused in plain words for bars that are not there, or backwards', () => {
    const performance = play(tune());
    expect(judge(performance, loop(3, 2), 1000)).toMatchObject({ why: 'backwards' });
    expect(judge(performance, loop(8, 12), 1000)).toMatchObject({ why: 'noSuchPlace' });
    expect(judge(performance, loop(-1, 2), 1000)).toMatchObject({ why: 'noSuchPlace' });
    expect(judge(performance, loop(0, 1.5), 1000)).toMatchObject({ why: 'noSuchPlace' });
    expect(judge(performance, { kind: 'loop', leg: 'Z', from: 0, to: 1 }, 1000)).toMatchObject({ ok: false });
    expect(judge(performance, loop(8, 11), 1000)).toMatchObject({ ok: true, landsMs: 8600 });
  });

  it('[STAGE-62] is off after the round, and the band goes on from there', () => {
    // Round 2 begins at 12,600; called in it at 13,000, off at 16,600.
    const performance = play(tune(), [1000, loop(4, 5)], [13_000, OFF]);
    expect(barsOf(performance, 4, 11)).toEqual([
      'A 1.5',
      'A 1.6',
      'A 1.5',
      'A 1.6',
      'A 1.7',
      'A 1.8',
      'A 1.9',
    ]);
    expect(allBars(performance, 9)[8]?.loop).toBeUndefined();
    expect(loopAt(performance, 16_600)).toBeNull();
    expect(announced(performance, 13_500)).toMatchObject([
      { name: 'Loop off', detail: 'bar 7', landsMs: 16_600, barsToGo: 2, family: 'move' },
    ]);
    // Too late for this round: 400 ms before its end is less than a pulse of 500 ms.
    expect(judge(play(tune(), [1000, loop(4, 5)]), OFF, 16_200)).toMatchObject({ landsMs: 20_600 });
    expect(judge(play(tune()), OFF, 1000)).toMatchObject({
      why: 'noLoop',
      words: 'Nothing is being looped.',
    });
  });

  it('[STAGE-62] is off after the round where a phrase ends within it', () => {
    const performance = play(tune(), [1000, loop(2, 5)], [9000, OFF]);
    // Round 1: bars 3 to 6, from 8,600 to 16,600, over the end of a phrase at 12,600.
    expect(barsOf(performance, 4, 9)).toEqual(['A 1.3', 'A 1.4', 'A 1.5', 'A 1.6', 'A 1.7']);
    expect(judge(play(tune(), [1000, loop(2, 5)]), OFF, 9000)).toMatchObject({ landsMs: 16_600 });
  });

  it('[STAGE-61] ends a phrase with every round, so that cues for a phrase land there', () => {
    const performance = play(
      tune(),
      [1000, loop(4, 5)],
      [9000, { kind: 'break', bars: 1 }],
      [9000, { kind: 'stopTime' }],
    );
    expect(
      allBars(performance, 9)
        .slice(4)
        .map(({ out, stopTime }) => out ?? (stopTime ? '!' : '.')),
    ).toEqual([...['.', '.', 'hit', '!', '!']]);
  });

  it('[STAGE-14] can be taken back before it lands', () => {
    const performance = play(tune(), [1000, loop(4, 5)], [8599, { kind: 'takeBack', cue: 'c2' }]);
    expect(barsOf(performance, 3, 8)).toEqual(['A 1.4', 'A 1.5', 'A 1.6', 'A 1.7', 'A 1.8']);
    const goesOn = play(tune(), [1000, loop(4, 5)], [9000, OFF], [12_599, { kind: 'takeBack', cue: 'c3' }]);
    expect(at(goesOn, 100_601)).toBe('A 1.5+0.002');
  });
});

describe('A loop with a count-in', () => {
  it('[STAGE-63] is counted in before every round, the first too', () => {
    const performance = play({ ...tune(), countBars: 1 }, [3000, loop(4, 5, { countIn: true })]);
    // Counted in from 600 to 2,600; the phrase ends at 10,600: a bar of count, two bars, a bar of count …
    expect(locate(performance, 10_600)).toMatchObject({
      state: 'count',
      place: { leg: 'A', pass: 1, barIndex: 4, pulse: 0 },
      pulsesToCome: 4,
      countPulses: 4,
      barPulses: 4,
    });
    expect(at(performance, 12_600)).toBe('A 1.5+0');
    expect(at(performance, 16_600)).toBe('count');
    expect(at(performance, 18_600)).toBe('A 1.5+0');
    expect(
      allBars(performance, 7)
        .slice(4)
        .map(({ startMs, lands }) => [startMs, ...lands]),
    ).toEqual([[12_600, 'c2'], [14_600], [18_600]]);
  });

  it('[STAGE-63] counts at least one bar, in the metre of the first bar of the loop', () => {
    const inThree = tune({ 4: { pulses: 3 } });
    expect(locate(play(inThree, [1000, loop(4, 5, { countIn: true })]), 8600)).toMatchObject({
      state: 'count',
      countPulses: 3,
      barPulses: 3,
    });
  });

  it('[STAGE-63] is not counted in again where it has just been counted in', () => {
    const performance = play({ ...tune(), countBars: 2 }, [700, loop(0, 1, { countIn: true })]);
    expect(at(performance, 4600)).toBe('A 1.1+0');
    expect(at(performance, 8600)).toBe('count');
    expect(at(performance, 12_600)).toBe('A 1.1+0');
  });

  it('[STAGE-63] lets cues for the bar land on its downbeat, and tempo and stop on the counts', () => {
    const calls = [loop(4, 5, { countIn: true })] as const;
    const performance = play(
      tune(),
      [1000, calls[0]],
      [13_000, { kind: 'break', bars: 1 }],
      [14_700, { kind: 'tempo', bpm: 240 }],
    );
    // Round 1 begins at 10,600, its end at 14,600; notice of the tempo is over at 15,200: the count at 15,600.
    expect(tempoAt(performance, 15_599)).toBe(120);
    expect(tempoAt(performance, 15_600)).toBe(240);
    // Two counts of 250 ms are left; the break waits for the downbeat.
    expect(allBars(performance, 7)[6]).toMatchObject({ startMs: 16_100, out: 'hit' });
    const stopped = play(tune(), [1000, calls[0]], [14_700, { kind: 'stop' }]);
    expect(locate(stopped, 15_600)).toEqual({ state: 'ended', atMs: 15_600 });
  });

  it('[STAGE-16] [STAGE-63] counts the bar lines of the count in, and is off after the round that was counted in', () => {
    const performance = play(tune(), [1000, loop(4, 5, { countIn: true })], [14_700, OFF]);
    // In the count before round 2: its end, then two bars.
    expect(announced(performance, 15_300)).toMatchObject([
      { name: 'Loop off', landsMs: 20_600, barsToGo: 3 },
    ]);
    expect(announced(performance, 17_000)).toMatchObject([{ barsToGo: 2 }]);
    expect(barsOf(performance, 4, 10)).toEqual(['A 1.5', 'A 1.6', 'A 1.5', 'A 1.6', 'A 1.7', 'A 1.8']);
    // Seen from round 1: the end of the bar, the count, the downbeat.
    const broken = play(tune(), [1000, loop(4, 5, { countIn: true })], [13_000, { kind: 'break', bars: 1 }]);
    expect(announced(broken, 13_000)).toMatchObject([
      { name: 'Break', landsMs: 16_600, barsToGo: 2, beatsToGo: 8 },
    ]);
  });
});

describe('A loop in steps', () => {
  const steps = (more: Partial<Loop>) => play(tune(), [1000, loop(4, 5, more)]);
  const tempos = (performance: ReturnType<typeof play>, most: number) =>
    allBars(performance, 4 + 2 * most)
      .filter(({ loop: round, place }) => round && place.barIndex === 4)
      .map(({ startMs }) => tempoAt(performance, startMs));

  it('[STAGE-64] goes up after every so many rounds, to the goal and no farther', () => {
    expect(tempos(steps({ stepBpm: 8, everyRounds: 2, goalBpm: 132 }), 7)).toEqual([
      120, 120, 128, 128, 132, 132, 132,
    ]);
    expect(tempos(steps({ stepBpm: 100 }), 5)).toEqual([120, 220, 320, 400, 400]);
    const one = steps({ stepBpm: 30, goalBpm: 150 });
    // Round 1 takes 8 pulses at 120, 4,000 ms; round 2 8 · 60,000 / 150 = 3,200.
    expect(
      allBars(one, 9)
        .filter((_, i) => i >= 4 && i % 2 === 0)
        .map(({ startMs }) => startMs),
    ).toEqual([8600, 12_600, 15_800]);
    expect(announced(one, 1500)).toMatchObject([{ detail: 'bars 5–6, to 150' }]);
  });

  it('[STAGE-64] goes down where the goal is lower', () => {
    expect(tempos(steps({ stepBpm: 15, goalBpm: 80 }), 5)).toEqual([120, 105, 90, 80, 80]);
  });

  it('[STAGE-64] counts in at the new tempo', () => {
    const performance = steps({ stepBpm: 120, goalBpm: 240, countIn: true });
    // Counted in at 8,600, round 1 from 10,600 to 14,600; then four counts of 250 ms.
    expect(locate(performance, 14_600)).toMatchObject({ state: 'count', bpm: 240 });
    expect(at(performance, 15_600)).toBe('A 1.5+0');
  });

  it('[STAGE-64] goes on from a tempo that was called', () => {
    const performance = play(tune(), [1000, loop(4, 5, { stepBpm: 10 })], [9000, { kind: 'tempo', bpm: 60 }]);
    expect(tempos(performance, 3)).toEqual([120, 70, 80]);
  });

  it('[STAGE-64] has a tempo of its own, not the one that is written', () => {
    const chart = tune({ 4: { marks: [mark({ kind: 'tempo', bpm: 180 })] } });
    const slow = [1000, { kind: 'tempo', bpm: 80 }] as const;
    expect(tempos(play(chart, slow, [2000, loop(4, 5, { stepBpm: 4, goalBpm: 88 })]), 4)).toEqual([
      80, 84, 88, 88,
    ]);
    expect(tempos(play(chart, slow, [2000, loop(4, 5)]), 3)).toEqual([180, 180, 180]);
  });

  it('[STAGE-64] begins every round as fast as the one before where a tempo is written at its end', () => {
    const chart = tune({ 5: { marks: [mark({ kind: 'tempo', bpm: 60 }, 2)] } });
    expect(tempos(play(chart, [1000, loop(4, 5)]), 3)).toEqual([120, 120, 120]);
    const called = play(chart, [1000, loop(4, 5)], [9000, { kind: 'tempo', bpm: 90 }]);
    expect(tempos(called, 3)).toEqual([120, 90, 90]);
    expect(tempos(play(tune(), [1000, loop(4, 5)], [9000, { kind: 'tempo', bpm: 90 }]), 3)).toEqual([
      120, 90, 90,
    ]);
  });

  it('[STAGE-64] is refused in plain words where a step makes no sense', () => {
    const why = (more: Partial<Loop>) => judge(play(tune()), loop(4, 5, more), 1000);
    expect(why({ stepBpm: 0 })).toMatchObject({ why: 'badStep' });
    expect(why({ stepBpm: 4, everyRounds: 0 })).toMatchObject({ why: 'badRounds' });
    expect(why({ stepBpm: 4, goalBpm: 401 })).toMatchObject({ why: 'badTempo' });
    expect(why({ goalBpm: 140 })).toMatchObject({ why: 'noStep' });
  });
});
