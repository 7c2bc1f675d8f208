import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Cue } from '../../../common/stage/cue.ts';
import { judge } from '../../../common/stage/judge.ts';
import { locate } from '../../../common/stage/locate.ts';
import { type Performance, perform } from '../../../common/stage/perform.ts';
import { tempoCurve } from '../../../common/stage/tempo-curve.ts';
import { allBars, at, play } from './support-read.ts';
import { bar, bars, type Calls, leg, mark, road, START, take } from './support-road.ts';

/** At 120 from 600 ms on: pulse n comes at 600 + 500·n. */
const tune = road([leg('A', 'open', bars('a', 8))], { countBars: 0 });
const PULSE_MS = 500;
const pulseMs = (n: number): number => 600 + n * PULSE_MS;
const tap = (tappedAtMs: number, more: object = {}): Cue => ({ kind: 'tap', tappedAtMs, ...more });
/** Taps that are heard 30 ms later. */
const taps = (...times: readonly number[]): Calls => times.map((t) => [t + 30, tap(t)] as const);
const did = (performance: Performance) => tempoCurve(performance, 1e6).taps.map((one) => one.did);
const bpmOf = (performance: Performance, tMs: number): number => {
  const where = locate(performance, tMs);
  return where.state === 'playing' || where.state === 'count' ? where.bpm : Number.NaN;
};
/** When bar `index` begins, against the board that nobody taps to. */
const lateMs = (performance: Performance, index: number): number =>
  (allBars(performance)[index]?.startMs ?? Number.NaN) - pulseMs(4 * index);

describe('A tap', () => {
  it('[STAGE-71] corrects the phase by a large share at first and by a small one once the tempo is known', () => {
    const first = lateMs(play(tune, ...taps(pulseMs(1) + 40)), 1);
    expect(first).toBeGreaterThan(25);
    expect(first).toBeLessThanOrEqual(45);
    const steady = Array.from({ length: 24 }, (_, i) => pulseMs(i));
    const before = play(tune, ...taps(...steady));
    expect(Math.abs(lateMs(before, 7))).toBeLessThan(1e-6);
    const after = lateMs(play(tune, ...taps(...steady, pulseMs(24) + 40)), 7);
    expect(after).toBeGreaterThan(6);
    expect(after).toBeLessThan(20);
  });

  it('[STAGE-71] corrects the period too: the board goes on as fast as the taps', () => {
    const at110 = Array.from({ length: 12 }, (_, i) => 600 + (i * 60_000) / 110);
    const performance = play(tune, ...taps(...at110));
    expect(bpmOf(performance, 9000)).toBeCloseTo(110, 0);
    const bar5 = allBars(performance)[5]?.startMs ?? 0;
    expect(Math.abs(bar5 - (600 + (20 * 60_000) / 110))).toBeLessThan(10);
  });

  it('[STAGE-71] on beat one is taken for the nearest beat one, where only those are tapped', () => {
    const slow = (60_000 / 112) * 4;
    const downbeats = Array.from({ length: 8 }, (_, i) => 600 + i * slow);
    const calls: Calls = downbeats.map((t) => [t + 30, tap(t, { downbeat: true })] as const);
    const performance = play(tune, ...calls);
    expect(bpmOf(performance, 18_000)).toBeCloseTo(112, 0);
    expect(Math.abs((allBars(performance)[8]?.startMs ?? 0) - (600 + 8 * slow))).toBeLessThan(12);
  });

  it('[STAGE-71] is taken for a pulse of its bar, however long the bars are', () => {
    const odd = road([leg('A', 'open', [bar('x', { pulses: 3.5 }), bar('y', { pulses: 2 })])], {
      countBars: 0,
    });
    // Pulses at 0, 1, 2, 3 | 3.5, 4.5 | 5.5: each tapped a little late.
    const counts = [0, 1, 2, 3, 3.5 + 1, 5.5, 6.5];
    const performance = play(odd, ...taps(...counts.map((n) => pulseMs(n) + 10)));
    const errors = tempoCurve(performance, 1e6).taps.map(({ errorMs }) => Math.abs(errorMs));
    for (const error of errors) expect(error).toBeLessThan(15);
  });

  it('[STAGE-72] bends the tempo from its arrival, so that place and tempo are right two pulses later', () => {
    const performance = play(tune, [pulseMs(2) + 100, tap(pulseMs(2) + 60)]);
    const arrival = pulseMs(2) + 100;
    expect(at(performance, arrival - 1)).toBe(at(play(tune), arrival - 1));
    const bends = (tMs: number) => {
      const [a, b] = [locate(performance, tMs), locate(performance, tMs + 1)];
      if (a.state !== 'playing' || b.state !== 'playing') throw new Error('it plays');
      return (b.place.pulse - a.place.pulse + 4 * (b.bar - a.bar)) * 60_000;
    };
    // Late by some 50 ms, a tenth of a pulse: a tenth slower at once, then evenly back.
    expect(bends(arrival + 1)).toBeLessThan(110);
    expect(bends(arrival + 500)).toBeGreaterThan(bends(arrival + 1));
    expect(bends(arrival + 1150)).toBeCloseTo(bends(arrival + 3000), 6);
    expect(bpmOf(performance, arrival + 1)).toBe(bpmOf(performance, arrival + 5000));
  });

  it('[STAGE-72] cancels a ramp', () => {
    const ramp = [1000, { kind: 'tempo', bpm: 60, overBars: 8 }] as const;
    const before = play(tune, ramp);
    const heard = allBars(before)[2]?.startMs ?? 0;
    const performance = play(tune, ramp, [heard, tap(heard)]);
    expect(bpmOf(before, heard + 8000)).toBeLessThan(90);
    expect(bpmOf(performance, heard + 8000)).toBeCloseTo(bpmOf(before, heard), 0);
  });

  it('[STAGE-72] never leads the place back, keeps half the speed at least, and the tempo within 20–400', () => {
    const someTap = fc.record({
      after: fc.integer({ min: 1, max: 1500 }),
      ago: fc.integer({ min: -200, max: 900 }),
      downbeat: fc.boolean(),
    });
    const someStart = fc.constantFrom(20, 21, 60, 120, 300, 399, 400);
    fc.assert(
      fc.property(fc.array(someTap, { minLength: 1, maxLength: 40 }), someStart, (list, tempoBpm) => {
        let atMs = 1000;
        const calls: Calls = list.map(({ after, ago, downbeat }) => {
          atMs += after;
          return [atMs, tap(atMs - ago, downbeat ? { downbeat } : {})] as const;
        });
        const performance = perform(take({ ...tune, tempoBpm }, [[0, START], ...calls]));
        const stepMs = 20;
        let before = locate(performance, 600);
        for (let tMs = 600 + stepMs; tMs < atMs + 2000; tMs += stepMs) {
          const where = locate(performance, tMs);
          if (where.state !== 'playing' || before.state !== 'playing') throw new Error('it plays');
          const pulses = 4 * (where.bar - before.bar) + where.place.pulse - before.place.pulse;
          const bpm = (60_000 * pulses) / stepMs;
          const slowest = Math.min(where.bpm, before.bpm) / 2;
          // One expectation a step would take most of the time.
          if (where.bpm >= 20 && where.bpm <= 400 && bpm >= slowest - 1e-4 && bpm <= 400 + 1e-4)
            before = where;
          else expect({ tMs, bpm, told: where.bpm, slowest }).toBeNull();
        }
      }),
      { numRuns: 60 },
    );
  });

  it('[STAGE-73] farther than 0.35 pulse off is ignored until another agrees with it', () => {
    const off = 0.4 * PULSE_MS;
    const one = play(tune, ...taps(pulseMs(4), pulseMs(5), pulseMs(6) + off));
    expect(did(one)).toEqual(['followed', 'followed', 'doubted']);
    expect(Math.abs(lateMs(one, 4))).toBeLessThan(1);
    const apart = play(tune, ...taps(pulseMs(4), pulseMs(5), pulseMs(6) + off, pulseMs(7) - off));
    expect(did(apart).at(-1)).toBe('bounced');
    const other = play(tune, ...taps(pulseMs(4), pulseMs(5), pulseMs(6) + off, pulseMs(8) - off));
    expect(did(other).at(-1)).toBe('doubted');
    const agreed = play(tune, ...taps(pulseMs(4), pulseMs(5), pulseMs(6) + off, pulseMs(7) + off));
    expect(did(agreed).at(-1)).toBe('followed');
    expect(lateMs(agreed, 4)).toBeGreaterThan(0.8 * off);
    expect(lateMs(agreed, 4)).toBeLessThan(1.3 * off);
  });

  it('[STAGE-73] within half a pulse of the one before is a bounce', () => {
    const twice = play(tune, ...taps(pulseMs(4), pulseMs(4) + 120, pulseMs(5)));
    expect(did(twice)).toEqual(['followed', 'bounced', 'followed']);
    expect(lateMs(twice, 4)).toBeCloseTo(lateMs(play(tune, ...taps(pulseMs(4), pulseMs(5))), 4), 9);
  });

  it('[STAGE-74] is refused where its time is farther than a second from the relay’s', () => {
    const performance = play(tune);
    for (const far of [5000 - 1001, 5000 + 1001, Number.NaN]) {
      expect(judge(performance, tap(far), 5000)).toMatchObject({ ok: false, why: 'tapTooFar' });
    }
    for (const near of [5000 - 1000, 5000, 5000 + 1000]) {
      expect(judge(performance, tap(near), 5000)).toMatchObject({ ok: true, landsMs: 5000, barsToGo: 0 });
    }
    const ended = play(tune, [1000, { kind: 'stop' }]);
    expect(judge(ended, tap(5000), 5000)).toMatchObject({ ok: false, why: 'ended' });
  });

  it('[STAGE-74] steers the count-in, and where it comes before the first count, moves that', () => {
    const counted = { ...tune, countBars: 2 };
    const late = play(counted, ...taps(pulseMs(0) + 30, pulseMs(2) + 30, pulseMs(4) + 30));
    expect((allBars(late)[0]?.startMs ?? 0) - pulseMs(8)).toBeGreaterThan(20);
    // Heard before the first count was due: the count begins earlier.
    const early = play(counted, [pulseMs(0) - 50, tap(pulseMs(0) - 60)]);
    expect((allBars(early)[0]?.startMs ?? 0) - pulseMs(8)).toBeLessThan(-30);
    expect(locate(early, pulseMs(0) - 50)).toMatchObject({ state: 'count', pulsesToCome: 8 });
    // Long before there is nothing that it could be.
    expect(did(play(counted, [100, tap(100)]))).toEqual(['doubted']);
  });

  it('[STAGE-75] that goes on leaning to one side shows another tempo, which is found within a few taps', () => {
    const steady = Array.from({ length: 32 }, (_, i) => pulseMs(i));
    const faster = Array.from({ length: 6 }, (_, i) => pulseMs(31) + (i + 1) * (PULSE_MS / 1.08));
    const performance = play(tune, ...taps(...steady, ...faster));
    expect(bpmOf(performance, pulseMs(40))).toBeGreaterThan(127);
    expect(bpmOf(performance, pulseMs(40))).toBeLessThan(132);
    // One stray tap among them is not a change of tempo.
    const stray = play(tune, ...taps(...steady, pulseMs(32) - 60, pulseMs(33), pulseMs(34), pulseMs(35)));
    expect(Math.abs(bpmOf(stray, pulseMs(40)) - 120)).toBeLessThan(2);
  });

  it('[STAGE-76] begins anew after another tempo, called or written', () => {
    const steady = Array.from({ length: 12 }, (_, i) => pulseMs(i));
    const called = play(tune, ...taps(...steady), [pulseMs(11) + 50, { kind: 'tempo', bpm: 60 }]);
    expect(bpmOf(called, pulseMs(20))).toBe(60);
    const marks = { 4: { marks: [mark({ kind: 'tempo', bpm: 90 })] } };
    const written = road([leg('A', 'open', bars('a', 8, marks))], { countBars: 0 });
    const bar5 = pulseMs(16);
    const at88 = Array.from({ length: 5 }, (_, i) => bar5 + (i * 60_000) / 88);
    const performance = play(written, ...taps(...steady, ...at88));
    expect(bpmOf(performance, bar5 + 5000)).toBeGreaterThan(87);
    expect(bpmOf(performance, bar5 + 5000)).toBeLessThan(89.5);
  });
});

describe('A release on the tap', () => {
  const hold = [700, { kind: 'hold' }] as const;
  const release = [4000, { kind: 'release', onTap: true }] as const;

  it('[STAGE-81] begins the next bar with the tap, seen from its arrival on', () => {
    const performance = play(tune, hold, release, [6060, tap(6000)]);
    expect(locate(performance, 6059)).toMatchObject({ state: 'held', place: { barIndex: 1, pulse: 0 } });
    expect(at(performance, 6060)).toBe('A 1.3+0.12');
    expect(at(performance, 8000)).toBe('A 1.4+0');
    expect(did(performance)).toEqual(['released']);
  });

  it('[STAGE-81] is not made by a tap before it was called, which is refused', () => {
    const held = play(tune, hold);
    expect(judge(held, tap(3900), 3950)).toMatchObject({ ok: false, why: 'held' });
    expect(locate(play(tune, hold, [3950, tap(3900)], release), 9000)).toMatchObject({ state: 'held' });
    const taken = play(tune, hold, release, [5000, { kind: 'takeBack', cue: 'c3' }], [6060, tap(6000)]);
    expect(locate(taken, 9000)).toMatchObject({ state: 'held' });
  });

  it('[STAGE-76] follows anew from the release', () => {
    const steady = Array.from({ length: 4 }, (_, i) => 6000 + (i * 60_000) / 112);
    const performance = play(tune, hold, release, ...taps(...steady));
    expect(did(performance)).toEqual(['released', 'followed', 'followed', 'followed']);
    expect(bpmOf(performance, 9000)).toBeGreaterThan(110);
    expect(bpmOf(performance, 9000)).toBeLessThan(118);
  });
});

describe('The tempo curve of a take', () => {
  it('[STAGE-77] has steps, ramps and what the taps made of the tempo, and tells what each tap did', () => {
    const performance = play(
      tune,
      [1000, { kind: 'tempo', bpm: 60, overBars: 1 }],
      ...taps(9000, 9010, 10_000),
      [20_000, { kind: 'stop' }],
    );
    const { points, taps: heard } = tempoCurve(performance, 60_000);
    const rampEnds = 1600 + (120_000 * 4) / 180;
    expect(points.slice(0, 4)).toEqual([
      { atMs: 0, bpm: 120 },
      { atMs: 1600, bpm: 120 },
      { atMs: 1600, bpm: 120 },
      { atMs: rampEnds, bpm: 60 },
    ]);
    expect(points.map(({ atMs }) => atMs)).toEqual(points.map(({ atMs }) => atMs).sort((a, b) => a - b));
    expect(points.at(-1)?.atMs).toBe(endOf(performance));
    expect(heard.map(({ id, tappedAtMs, heardAtMs, did }) => [id, tappedAtMs, heardAtMs, did])).toEqual([
      ['c3', 9000, 9030, 'followed'],
      ['c4', 9010, 9040, 'bounced'],
      ['c5', 10_000, 10_030, 'followed'],
    ]);
    expect(tempoCurve(performance, 9035).taps).toHaveLength(1);
    expect(tempoCurve(perform(take(tune, [])), 9000)).toEqual({ points: [], taps: [] });
  });
});

const endOf = (performance: Performance): number => {
  const where = locate(performance, 1e6);
  return where.state === 'ended' ? where.atMs : Number.NaN;
};
