import { describe, expect, it } from 'vitest';
import type { RoadMark } from '../../../common/form/road.ts';
import { announced } from '../../../common/stage/announce.ts';
import type { Cue } from '../../../common/stage/cue.ts';
import { tempoAt } from '../../../common/stage/in-force.ts';
import { locate } from '../../../common/stage/locate.ts';
import { upcoming } from '../../../common/stage/upcoming.ts';
import { at, play } from './support-read.ts';
import { type BarSpec, bars, leg, mark, road } from './support-road.ts';

const RIT = mark({ kind: 'rit' });
const ACCEL = mark({ kind: 'accel' });
const A_TEMPO = mark({ kind: 'aTempo' });
const tempo = (bpm: number, atPulse = 0): RoadMark => mark({ kind: 'tempo', bpm }, atPulse);

/** Twelve bars of 4/4 in phrases of four; at 120 without a count-in bar n begins at 600 + (n − 1) · 2,000. */
const tune = (marks: Record<number, RoadMark[]>, passes: number | 'open' = 1, bpm = 120) => {
  const specs = Object.entries(marks).map(([i, list]) => [i, { marks: list } satisfies BarSpec]);
  return road([leg('A', passes, bars('a', 12, Object.fromEntries(specs)))], { countBars: 0, tempoBpm: bpm });
};

/** A ramp of P pulses from b0 to b1 takes 120,000 · P / (b0 + b1) ms. */
const rampMs = (pulses: number, from: number, to: number) => (120_000 * pulses) / (from + to);

describe('Rit., accel. and a tempo as they are written', () => {
  it('[STAGE-44] a rit. comes to three quarters of the tempo by the end of its phrase, and stays there', () => {
    // From bar 3 to the end of bar 4: 8 pulses from 120 to 90 take 4,571.43 ms.
    const performance = play(tune({ 2: [RIT] }));
    const ends = 4600 + rampMs(8, 120, 90);
    expect(tempoAt(performance, 4599)).toBe(120);
    expect(tempoAt(performance, 4600)).toBe(120);
    expect(tempoAt(performance, (4600 + ends) / 2)).toBeCloseTo(105, 9);
    expect(upcoming(performance, 4700, 2)[1]?.startMs).toBeCloseTo(ends, 6);
    expect(tempoAt(performance, ends + 0.001)).toBe(90);
    // Bar 5 lasts 4 · 60,000 / 90 ms.
    expect(at(performance, ends + 2666.6667)).toBe('A 1.6+0');
  });

  it('[STAGE-44] an accel. comes to four thirds', () => {
    const performance = play(tune({ 3: [mark({ kind: 'accel' }, 2)] }, 1, 90));
    const begins = 600 + (14 * 60_000) / 90;
    expect(tempoAt(performance, begins + rampMs(2, 90, 120) + 0.001)).toBeCloseTo(120, 9);
  });

  it('[STAGE-44] ends at the next tempo word or hold in its phrase, and where the next phrase begins with one', () => {
    const to = (marks: Record<number, RoadMark[]>, pulses: number, bpm: number) => {
      const performance = play(tune(marks));
      const ends = 600 + rampMs(pulses, 120, bpm);
      expect(tempoAt(performance, ends - 0.001)).toBeCloseTo(bpm, 3);
      return performance;
    };
    // A slower tempo in figures is where the rit. leads; one that is not slower only ends it.
    to({ 0: [RIT], 2: [tempo(100)] }, 8, 100);
    to({ 0: [RIT], 4: [tempo(80)] }, 16, 80);
    to({ 0: [RIT], 1: [tempo(132, 2)] }, 6, 90);
    to({ 0: [RIT], 1: [A_TEMPO] }, 4, 90);
    to({ 0: [RIT], 4: [tempo(132)] }, 16, 90);
    to({ 0: [RIT], 5: [tempo(80)] }, 16, 90);
    to({ 0: [ACCEL], 2: [tempo(140)] }, 8, 140);
    const held = to({ 0: [RIT], 1: [mark({ kind: 'hold' }, 2)] }, 6, 90);
    expect(locate(held, 1e6)).toMatchObject({ state: 'held', place: { barIndex: 1, pulse: 2 } });
    expect(tempoAt(held, 1e6)).toBeCloseTo(90, 9);
  });

  it('[STAGE-44] a tempo goes back to the tempo before, over several of them, and else says nothing', () => {
    const performance = play(tune({ 0: [RIT], 1: [RIT], 4: [A_TEMPO], 6: [tempo(100)], 8: [A_TEMPO] }));
    // The second rit. begins where the first ends, at 90, which is all that there is.
    const fifth = 600 + rampMs(4, 120, 90) + (12 * 60_000) / 90;
    expect(tempoAt(performance, fifth - 0.001)).toBeCloseTo(90, 9);
    expect(tempoAt(performance, fifth + 0.001)).toBe(120);
    expect(tempoAt(performance, fifth + 4001)).toBe(100);
    expect(tempoAt(performance, fifth + 4001 + 4800)).toBe(100);
    const said = announced(performance, 700).map(({ name, detail }) => `${name} ${detail}`);
    expect(said).toEqual(['Rit. to 90', 'A tempo 120', 'Tempo 100']);
  });

  it('[STAGE-44] a rit. in every pass does not become slower and slower', () => {
    const open = play(tune({ 11: [RIT] }, 'open'));
    const second = 600 + 22_000 + rampMs(4, 120, 90);
    expect(tempoAt(open, second + 1)).toBe(90);
    expect(tempoAt(open, second + 12 * 2666.667 + 1)).toBe(90);
    const back = play(tune({ 0: [A_TEMPO], 11: [RIT] }, 'open'));
    expect(at(back, second + 24_000 + 0.001)).toMatch('A 2.12');
    expect(tempoAt(back, second + 1)).toBe(120);
  });

  it('[STAGE-44] a called tempo takes its place, and becomes the tempo before', () => {
    const call = (atMs: number): [number, Cue] => [atMs, { kind: 'tempo', bpm: 100 }];
    const marks = { 0: [RIT], 4: [A_TEMPO] };
    // Called for the pulse on which the rit. begins, and within it.
    const performance = play(tune({ 1: [RIT], 4: [A_TEMPO] }), call(2100));
    expect(tempoAt(performance, 2600)).toBe(100);
    expect(tempoAt(performance, 20_000)).toBe(100);
    expect(tempoAt(play(tune(marks), call(3000)), 20_000)).toBe(100);
    // A ramp that was called is replaced by one that is written.
    const ramp = play(tune({ 1: [RIT] }), [700, { kind: 'tempo', bpm: 60, overBars: 10 }]);
    // 2 pulses of 40 on the way: v² = 120² − (120² − 60²) · 2 / 40 = 13,860 at the rit.
    const before = Math.sqrt(13_860);
    expect(tempoAt(ramp, 20_000)).toBeCloseTo(before * 0.75, 6);
  });

  it('[STAGE-44] stays within 20 and 400', () => {
    expect(tempoAt(play(tune({ 0: [RIT] }, 1, 24)), 100_000)).toBe(20);
    expect(tempoAt(play(tune({ 0: [ACCEL] }, 1, 350)), 6000)).toBe(400);
  });

  it('[STAGE-44] is announced with what it comes to, not where the band goes so already', () => {
    const performance = play(tune({ 2: [RIT], 4: [A_TEMPO] }));
    expect(announced(performance, 700)).toMatchObject([
      {
        kind: 'rit',
        family: 'feel',
        name: 'Rit.',
        detail: 'to 90',
        landsMs: 4600,
        barsToGo: 2,
        written: true,
      },
      { kind: 'aTempo', name: 'A tempo', detail: '120', barsToGo: 4, landsAt: { barIndex: 4, pulse: 0 } },
    ]);
    expect(announced(play(tune({ 2: [A_TEMPO] })), 700)).toEqual([]);
  });

  it('[STAGE-44] of the last pass acts there only, and parts it from the others', () => {
    const last = play(tune({ 11: [mark({ kind: 'rit' }, 0, 'last')] }, 'open'), [
      20_000,
      { kind: 'lastChorus' },
    ]);
    expect(locate(last, 600 + 22_000 + rampMs(4, 120, 90) - 0.001)).toMatchObject({ state: 'playing' });
    expect(locate(last, 600 + 22_000 + rampMs(4, 120, 90) + 0.001)).toMatchObject({ state: 'ended' });
    // Called in bar 12, it acts on the next pass.
    const late = play(tune({ 11: [mark({ kind: 'rit' }, 0, 'last')] }, 'open'), [
      23_000,
      { kind: 'lastChorus' },
    ]);
    expect(at(late, 24_600)).toBe('A 2.1+0');
    expect(locate(late, 24_600 + 22_000 + rampMs(4, 120, 90) + 0.001)).toMatchObject({ state: 'ended' });
  });
});
