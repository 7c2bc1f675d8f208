import { describe, expect, it } from 'vitest';
import { judge } from '../../../common/stage/judge.ts';
import { locate } from '../../../common/stage/locate.ts';
import { perform } from '../../../common/stage/perform.ts';
import { bpmAt, countAt, msAt, rampTempo } from '../../../common/stage/tempo.ts';
import { at, play } from './support-read.ts';
import { bar, bars, leg, mark, road, START, take, twelveBars } from './support-road.ts';

const eight = bars('a', 8);
const tune = road([leg('A', 'open', eight)], { countBars: 0 });

describe('A tempo ramp', () => {
  it('[STAGE-9] takes 120,000 · P / (b0 + b1) ms and is linear in time', () => {
    const ramp = rampTempo(0, 1000, 120, 60, 8);
    expect(ramp.ramp?.ms).toBeCloseTo(5333.333, 3);
    expect(countAt(ramp, 1000 + 5333.333333)).toBeCloseTo(8, 6);
    // Half the time: 90 bpm, and (120·τ − 60·τ²/2T)/60,000 pulses.
    expect(bpmAt(ramp, 1000 + 5333.3333333 / 2)).toBeCloseTo(90, 6);
    expect(countAt(ramp, 1000 + 5333.3333333 / 2)).toBeCloseTo(4.6667, 4);
    expect(countAt(ramp, 1000 + 5333.3333333 + 1000)).toBeCloseTo(9, 6);
  });

  it('[STAGE-9] is found the other way round as exactly', () => {
    for (const ramp of [
      rampTempo(3, 10, 120, 60, 8),
      rampTempo(0, 0, 90, 90.0001, 4),
      rampTempo(1, 5, 40, 300, 16),
    ]) {
      for (const count of [3, 3.5, 4.25, 8, 11, 30]) {
        expect(countAt(ramp, msAt(ramp, count))).toBeCloseTo(count, 9);
      }
    }
  });
});

describe('Tempo', () => {
  it('[STAGE-27] ramps over so many times the pulses of the bar in which it lands', () => {
    const performance = play(tune, [1000, { kind: 'tempo', bpm: 60, overBars: 2 }]);
    // Notice is over at 1,500: the pulse at 1,600, count 2. Eight pulses later it goes at 60.
    const ends = 1600 + (120_000 * 8) / 180;
    expect(at(performance, 1600)).toBe('A 1.1+2');
    expect(locate(performance, ends)).toMatchObject({ bpm: 60 });
    expect(at(performance, ends + 0.001)).toBe('A 1.3+2');
    expect(at(performance, ends + 2000.001)).toBe('A 1.4+0');
  });

  it('[STAGE-27] replaces a ramp, from the speed it has reached', () => {
    const ramp = [1000, { kind: 'tempo', bpm: 60, overBars: 4 }] as const;
    expect(locate(play(tune, ramp, [3000, { kind: 'tempo', bpm: 100 }]), 6000)).toMatchObject({ bpm: 100 });
    const over = play(tune, ramp, [3000, { kind: 'tempo', bpm: 200, overBars: 1 }]);
    const verdict = judge(play(tune, ramp), { kind: 'tempo', bpm: 200, overBars: 1 }, 3000);
    const landsMs = verdict.ok ? verdict.landsMs : Number.NaN;
    const before = locate(over, landsMs - 0.01);
    const after = locate(over, landsMs + 0.01);
    if (before.state !== 'playing' || after.state !== 'playing') throw new Error('both are playing');
    expect(after.bpm).toBeCloseTo(before.bpm, 1);
  });

  it('[STAGE-27] lies between 20 and 400', () => {
    for (const bpm of [19, 401, Number.NaN]) {
      expect(judge(play(tune), { kind: 'tempo', bpm }, 1000)).toMatchObject({ ok: false, why: 'badTempo' });
    }
    expect(judge(play(tune), { kind: 'tempo', bpm: 90, overBars: -1 }, 1000)).toMatchObject({
      ok: false,
      why: 'badRamp',
    });
  });

  it('[STAGE-35] works at once while waiting; the count-in goes at it', () => {
    const performance = perform(
      take(tune, [
        [0, { kind: 'tempo', bpm: 60 }],
        [1000, START],
      ]),
    );
    expect(at(performance, 1600 + 4000)).toBe('A 1.2+0');
  });

  it('[STAGE-11] lands on a count of the count-in', () => {
    const counted = { ...tune, countBars: 1 };
    expect(judge(play(counted), { kind: 'tempo', bpm: 60 }, 700)).toMatchObject({
      landsMs: 1600,
      barsToGo: 0,
    });
    // Two counts at 120, two at 60.
    expect(at(play(counted, [700, { kind: 'tempo', bpm: 60 }]), 3600)).toBe('A 1.1+0');
    expect(judge(play(counted), { kind: 'tempo', bpm: 60 }, 50)).toMatchObject({ landsMs: 600 });
  });

  it('[STAGE-10] has a notice of one pulse, but never less than 400 ms', () => {
    const fast = road([leg('A', 'open', eight)], { countBars: 0, tempoBpm: 240 });
    // 1,000 + 400: the pulse at 1,600 (600 + 4·250) is the first; one pulse alone would be 1,350.
    expect(judge(play(fast), { kind: 'tempo', bpm: 100 }, 1000)).toMatchObject({ landsMs: 1600 });
    const slow = road([leg('A', 'open', eight)], { countBars: 0, tempoBpm: 60 });
    expect(judge(play(slow), { kind: 'tempo', bpm: 100 }, 1000)).toMatchObject({ landsMs: 2600 });
    expect(judge(play(slow), { kind: 'tempo', bpm: 100 }, 1600)).toMatchObject({ landsMs: 2600 });
  });

  it('[STAGE-13] moves the time of a later landing, never its count', () => {
    const performance = play(tune, [1000, { kind: 'break', bars: 1 }], [1100, { kind: 'tempo', bpm: 60 }]);
    // The tempo lands at 1,600 (count 2); the phrase end is 14 pulses later.
    expect(at(performance, 1600 + 14_000)).toBe('A 1.5+0');
  });

  it('[STAGE-10] counts notice by the earlier cues alone', () => {
    // 60 from 1,600 on: called at 1,500, notice of 500 ms ends at 2,000, which is count 2.4; it lands at count 3.
    const slower = [1000, { kind: 'tempo', bpm: 60 }] as const;
    expect(judge(play(tune, slower), { kind: 'stop' }, 1500)).toMatchObject({ landsMs: 2600 });
  });

  it('[STAGE-33] written is a step at its pulse, and a call for the same pulse wins', () => {
    const on = (atPulse: number) =>
      road([leg('A', 1, bars('a', 4, { 1: { marks: [mark({ kind: 'tempo', bpm: 60 }, atPulse)] } }))], {
        countBars: 0,
      });
    expect(at(play(on(0)), 2600 + 4000)).toBe('A 1.3+0');
    expect(at(play(on(2)), 2600 + 1000 + 2000)).toBe('A 1.3+0');
    expect(locate(play(on(0), [2000, { kind: 'tempo', bpm: 90 }]), 2600)).toMatchObject({ bpm: 90 });
  });

  it('[STAGE-33] keeps the pulse through a change of metre', () => {
    const mixed = road(
      [leg('A', 1, [bar('x', { pulses: 3 }), bar('y', { pulses: 2 }), bar('z', { pulses: 5 })])],
      {
        countBars: 0,
      },
    );
    expect([600, 2100, 3100].map((t) => at(play(mixed), t))).toEqual(['A 1.1+0', 'A 1.2+0', 'A 1.3+0']);
    expect(locate(play(mixed), 5600)).toEqual({ state: 'ended', atMs: 5600 });
  });
});

describe('Stop', () => {
  it('[STAGE-29] ends the take on a pulse, in the count-in on a count, or at the pass end', () => {
    expect(locate(play(tune, [1050, { kind: 'stop' }]), 9000)).toEqual({ state: 'ended', atMs: 1600 });
    const counted = { ...tune, countBars: 2 };
    expect(locate(play(counted, [1000, { kind: 'stop' }]), 9000)).toEqual({ state: 'ended', atMs: 1600 });
    expect(locate(play(tune, [1000, { kind: 'stop', at: 'pass' }]), 99_000)).toEqual({
      state: 'ended',
      atMs: 16_600,
    });
  });

  it('[STAGE-29] drops what has not landed, and is refused when nothing is on', () => {
    const stopped = play(tune, [1000, { kind: 'lastChorus' }], [2000, { kind: 'stop' }]);
    expect(judge(stopped, { kind: 'stop' }, 5000)).toMatchObject({ ok: false, why: 'ended' });
    expect(judge(perform(take(tune, [])), { kind: 'stop' }, 0)).toMatchObject({ ok: false, why: 'waiting' });
  });

  it('[STAGE-29] may be followed by another start', () => {
    const again = play(twelveBars(), [1000, { kind: 'stop' }], [5000, { kind: 'start', leg: 'Solos' }]);
    expect(at(again, 4000)).toBe('ended');
    expect(at(again, 5100)).toBe('count');
    expect(at(again, 5600 + 4000)).toBe('Solos 1.1+0');
  });
});
