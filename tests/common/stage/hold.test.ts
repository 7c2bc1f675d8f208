import { describe, expect, it } from 'vitest';
import { announced } from '../../../common/stage/announce.ts';
import type { Cue } from '../../../common/stage/cue.ts';
import { tempoAt } from '../../../common/stage/in-force.ts';
import { judge, judgeTakeBack } from '../../../common/stage/judge.ts';
import { locate } from '../../../common/stage/locate.ts';
import { perform } from '../../../common/stage/perform.ts';
import { upcoming } from '../../../common/stage/upcoming.ts';
import { at, outs, play, told } from './support-read.ts';
import { type BarSpec, bars, type Calls, leg, mark, road, START, take } from './support-road.ts';

const HOLD: Cue = { kind: 'hold' };
const RELEASE: Cue = { kind: 'release' };
const NEVER = Number.POSITIVE_INFINITY;

/** Two chords a bar, at pulses 0 and 2; at 120 without a count-in bar n begins at 600 + (n − 1) · 2,000. */
const two = (prefix: string, n: number, others: Record<number, BarSpec> = {}) =>
  bars(
    prefix,
    n,
    Object.fromEntries(Array.from({ length: n }, (_, i) => [i, { chords: [0, 2], ...others[i] }])),
  );
const tune = road([leg('A', 1, two('a', 8)), leg('B', 'open', two('b', 8)), leg('C', 1, two('c', 4))], {
  countBars: 0,
});

describe('Hold', () => {
  it('[STAGE-39] lands at the onset of the first last chord of a bar after notice, and stays there', () => {
    // At 1,100 the place is pulse 1; notice is over at pulse 2, which is where the last chord begins.
    expect(judge(play(tune), HOLD, 1100)).toEqual({
      ok: true,
      landsMs: 1600,
      landsAt: { leg: 'A', pass: 1, barIndex: 0, pulse: 2 },
      barsToGo: 0,
    });
    expect(judge(play(tune), HOLD, 1101)).toMatchObject({
      landsMs: 3600,
      landsAt: { barIndex: 1, pulse: 2 },
    });
    const held = play(tune, [1100, HOLD]);
    expect(at(held, 1599)).toBe('A 1.1+1.998');
    const place = { leg: 'A', pass: 1, barIndex: 0, pulse: 2 };
    for (const t of [1600, 2600, 1e6, 1e12]) {
      expect(locate(held, t)).toEqual({ state: 'held', place, bar: 0, sinceMs: 1600 });
    }
    expect(tempoAt(held, 1e6)).toBe(120);
  });

  it('[STAGE-39] lands in the bar that is named, in its leg when that comes', () => {
    const named = (legId: string, barIndex: number): Cue => ({ kind: 'hold', leg: legId, barIndex });
    expect(judge(play(tune), named('A', 7), 1000)).toMatchObject({
      landsMs: 600 + 14_000 + 1000,
      barsToGo: 7,
    });
    expect(judge(play(tune), named('B', 1), 1000)).toMatchObject({
      landsMs: 600 + 18_000 + 1000,
      barsToGo: 9,
    });
    // The open leg stands before it: nobody can say when.
    expect(judge(play(tune), named('C', 3), 1000)).toEqual({
      ok: true,
      landsMs: NEVER,
      landsAt: { leg: 'C', pass: 1, barIndex: 3, pulse: 0 },
      barsToGo: NEVER,
    });
    expect(judge(play(tune), { kind: 'hold', barIndex: 2 }, 1000)).toMatchObject({ landsMs: 600 + 5000 });
    expect(judge(play(tune), { kind: 'hold', leg: 'B' }, 1000)).toMatchObject({ landsMs: 600 + 17_000 });
  });

  it('[STAGE-39] passes over a bar without a chord; a chord that goes on begins with its bar', () => {
    const quiet = road([leg('A', 1, two('a', 4, { 0: { chords: [] }, 1: { chords: [] } }))], {
      countBars: 0,
    });
    expect(judge(play(quiet), HOLD, 700)).toMatchObject({ landsMs: 600 + 4000 + 1000 });
    const onOne = road([leg('A', 1, bars('a', 4))], { countBars: 0 });
    const held = play(onOne, [700, HOLD]);
    expect(locate(held, 2600)).toMatchObject({ state: 'held', place: { barIndex: 1, pulse: 0 }, bar: 1 });
  });

  it('[STAGE-39] is refused where there is nothing to hold, or nothing to hold any more', () => {
    const silent = road([leg('A', 1, bars('a', 2, { 0: { chords: [] }, 1: { chords: [] } }))], {
      countBars: 0,
    });
    const hold = (fields: object): Cue => ({ kind: 'hold', ...fields }) as Cue;
    expect(judge(play(silent), HOLD, 700)).toMatchObject({ why: 'noChord' });
    expect(judge(play(tune), hold({ leg: 'nowhere' }), 700)).toMatchObject({ why: 'noSuchPlace' });
    expect(judge(play(tune), hold({ leg: 'A', barIndex: 8 }), 700)).toMatchObject({ why: 'noSuchPlace' });
    expect(judge(play(tune), hold({ barIndex: -1 }), 700)).toMatchObject({ why: 'noSuchPlace' });
    expect(judge(play(tune), hold({ leg: 'A', barIndex: 0 }), 3000)).toMatchObject({ why: 'goneBy' });
    expect(judge(play(road([leg('A', 1, two('a', 1))], { countBars: 0 })), HOLD, 1200)).toMatchObject({
      why: 'over',
    });
    expect(judge(perform(take(tune, [])), HOLD, 0)).toMatchObject({ why: 'waiting' });
    const held = play(tune, [1100, HOLD]);
    // Twice before it lands, and while it is held.
    expect(judge(held, HOLD, 1100)).toMatchObject({ why: 'heldAlready' });
    expect(judge(held, HOLD, 9000)).toMatchObject({ why: 'heldAlready' });
    expect(judge(held, hold({ leg: 'B', barIndex: 0 }), 9000)).toMatchObject({ ok: true });
  });

  it('[STAGE-39] comes after a tempo on the same pulse, so that the band goes on at that tempo', () => {
    const performance = play(tune, [1100, HOLD], [1100, { kind: 'tempo', bpm: 60 }], [5000, RELEASE]);
    expect(locate(performance, 1600)).toMatchObject({ state: 'held', sinceMs: 1600 });
    // Notice is one pulse of 60.
    expect(at(performance, 5999)).toBe('held');
    expect(at(performance, 6000)).toBe('A 1.2+0');
    expect(at(performance, 10_000)).toBe('A 1.3+0');
  });

  it('[STAGE-39] in a loop holds in that round; the release begins the next bar of the round', () => {
    const loop: Cue = { kind: 'loop', leg: 'A', from: 2, to: 3 };
    const performance = play(tune, [1000, loop], [11_000, HOLD], [20_000, RELEASE]);
    // The loop begins at 8,600 with bar 3; at 11,500 the band is in bar 4, whose last chord is at 11,600.
    expect(locate(performance, 11_600)).toMatchObject({ state: 'held', place: { barIndex: 3, pulse: 2 } });
    expect(at(performance, 20_500)).toBe('A 1.3+0');
    expect(at(performance, 24_500)).toBe('A 1.3+0');
  });

  it('[STAGE-14] can be taken back before it lands, not once it is held', () => {
    const back = (t: number) => play(tune, [1100, HOLD], [t, { kind: 'takeBack', cue: 'c2' }]);
    expect(told(back(1599), 9)).toEqual(told(play(tune), 9));
    expect(at(back(1599), 1600)).toBe('A 1.1+2');
    expect(judgeTakeBack(play(tune, [1100, HOLD]), 'c2', 1600)).toMatchObject({ why: 'landed' });
    expect(at(back(1600), 5000)).toBe('held');
  });

  it('[STAGE-39] in the count-in lands in the first bar; in a break it holds the silence', () => {
    const counted = play({ ...tune, countBars: 1 }, [700, HOLD]);
    expect(locate(counted, 600 + 2000 + 1000)).toMatchObject({
      state: 'held',
      place: { barIndex: 0, pulse: 2 },
    });
    const broken = play(tune, [1100, { kind: 'break', bars: 4 }], [9000, HOLD], [20_000, RELEASE]);
    expect(locate(broken, 9600)).toMatchObject({ state: 'held', place: { barIndex: 4, pulse: 2 } });
    expect(at(broken, 20_500)).toBe('A 1.6+0');
    expect(outs(broken, 9)).toBe('....Hooo.');
  });
});

describe('Release', () => {
  it('[STAGE-40] begins the next bar when notice is over, at the tempo before', () => {
    const held = play(tune, [1100, HOLD]);
    expect(judge(held, RELEASE, 5000)).toEqual({
      ok: true,
      landsMs: 5500,
      landsAt: { leg: 'A', pass: 1, barIndex: 1, pulse: 0 },
      barsToGo: 1,
    });
    const performance = play(tune, [1100, HOLD], [5000, RELEASE]);
    expect(locate(performance, 5499)).toMatchObject({ state: 'held', sinceMs: 1600, place: { pulse: 2 } });
    expect(locate(performance, 5500)).toEqual({
      state: 'playing',
      place: { leg: 'A', pass: 1, barIndex: 1, pulse: 0 },
      bar: 1,
      bpm: 120,
    });
    expect(at(performance, 7500)).toBe('A 1.3+0');
  });

  it('[STAGE-40] ends the take at the end of the road', () => {
    const short = road([leg('A', 1, two('a', 2))], { countBars: 0 });
    const performance = play(short, [2700, HOLD], [8000, RELEASE]);
    expect(locate(performance, 8499)).toMatchObject({ state: 'held', place: { barIndex: 1, pulse: 2 } });
    expect(locate(performance, 8500)).toEqual({ state: 'ended', atMs: 8500 });
    expect(announced(performance, 8100)).toMatchObject([
      { name: 'Release', detail: 'the end', beatsToGo: 1 },
    ]);
  });

  it('[STAGE-40] makes sense only in a hold, where notice is over', () => {
    expect(judge(play(tune), RELEASE, 5000)).toMatchObject({ why: 'notHeld' });
    // The hold lands at 1,600, before the notice of a release called at 1,200 is over.
    expect(judge(play(tune, [1100, HOLD]), RELEASE, 1100)).toMatchObject({ why: 'notHeld' });
    expect(judge(play(tune, [1100, HOLD]), RELEASE, 1200)).toMatchObject({ ok: true, landsMs: 1700 });
    const twice = play(tune, [1100, HOLD], [5000, RELEASE]);
    expect(judge(twice, RELEASE, 5100)).toMatchObject({ why: 'notHeld' });
    expect(told(play(tune, [1100, HOLD], [5000, RELEASE], [5100, RELEASE]), 20)).toEqual(told(twice, 20));
    // Without the hold a release that was called in time for it makes no sense any more.
    const back = play(tune, [1100, HOLD], [1200, RELEASE], [1300, { kind: 'takeBack', cue: 'c2' }]);
    expect(told(back, 9)).toEqual(told(play(tune), 9));
    expect(judgeTakeBack(back, 'c3', 1400)).toMatchObject({ why: 'void' });
  });

  it('[STAGE-40] can be taken back until it lands; the hold goes on', () => {
    const performance = play(tune, [1100, HOLD], [5000, RELEASE], [5400, { kind: 'takeBack', cue: 'c3' }]);
    expect(at(performance, 9000)).toBe('held');
    expect(judge(performance, RELEASE, 9000)).toMatchObject({ ok: true, landsMs: 9500 });
  });

  it('[STAGE-40] waits for a tap where it was so called; a release without one still lands', () => {
    const waiting = play(tune, [1100, HOLD], [5000, { kind: 'release', onTap: true }]);
    expect(at(waiting, 1e6)).toBe('held');
    expect(announced(waiting, 6000)[0]).toMatchObject({
      name: 'Release',
      detail: 'on the tap',
      landsMs: NEVER,
    });
    const both = play(tune, [1100, HOLD], [5000, { kind: 'release', onTap: true }], [6000, RELEASE]);
    expect(at(both, 6500)).toBe('A 1.2+0');
    // One release is used up with one hold.
    const again = play(
      tune,
      [1100, HOLD],
      [5000, { kind: 'release', onTap: true }],
      [6000, RELEASE],
      [6600, HOLD],
    );
    expect(at(again, 1e6)).toBe('held');
  });
});

describe('While the band holds', () => {
  const held = (...calls: Parameters<typeof play>[1][]) => play(tune, [1100, HOLD], ...calls);

  it('[STAGE-41] other cues wait for the release, their counts too', () => {
    // Called while held it lands at the first phrase end after the release: bar 4 ends 3 bars after it.
    const performance = held(
      [3000, { kind: 'goTo', leg: 'C', barIndex: 0 }],
      [3100, { kind: 'tempo', bpm: 60 }],
      [9500, RELEASE],
    );
    expect(at(performance, 9999)).toBe('held');
    // The tempo lands on the pulse with which the next bar begins.
    expect(at(performance, 10_000)).toBe('A 1.2+0');
    expect(at(performance, 10_000 + 2000)).toBe('A 1.2+2');
    expect(at(performance, 10_000 + 12_000)).toBe('C 1.1+0');
  });

  it('[STAGE-41] a cue called before it lands at the line that it was called for', () => {
    // Called in bar 4; when its notice is over, at 7,660, the band holds since 7,600, so that it waits for the release, which is the phrase end.
    const performance = play(
      tune,
      [7050, HOLD],
      [7160, { kind: 'goTo', leg: 'C', barIndex: 0 }],
      [20_000, RELEASE],
    );
    expect(locate(performance, 7600 + 5000)).toMatchObject({ state: 'held', place: { barIndex: 3 } });
    expect(at(performance, 20_500)).toBe('C 1.1+0');
    const before = play(
      tune,
      [6000, { kind: 'goTo', leg: 'C', barIndex: 0 }],
      [7050, HOLD],
      [20_000, RELEASE],
    );
    expect(at(before, 20_500)).toBe('C 1.1+0');
  });

  it('[STAGE-41] the last chorus called in a hold ends the pass in which it is held', () => {
    const performance = play(
      tune,
      [17_000, HOLD],
      [25_000, { kind: 'lastChorus' }],
      [26_000, RELEASE],
      [60_000, { kind: 'stop' }],
    );
    expect(locate(performance, 17_600)).toMatchObject({ state: 'held', place: { leg: 'B', barIndex: 0 } });
    expect(told(performance, 30).slice(8)).toEqual([
      ...Array.from({ length: 8 }, (_, i) => `B 1.${i + 1}`),
      ...['C 1.1', 'C 1.2', 'C 1.3', 'C 1.4', 'end'],
    ]);
  });

  it('[STAGE-41] stop ends the take when notice is over, whatever it was called for', () => {
    expect(locate(held([5000, { kind: 'stop' }]), 5500)).toEqual({ state: 'ended', atMs: 5500 });
    expect(locate(held([5000, { kind: 'stop', at: 'pass' }]), 5500)).toEqual({ state: 'ended', atMs: 5500 });
    expect(at(held([5000, { kind: 'stop' }]), 5499)).toBe('held');
    // At one instant stop wins.
    expect(locate(held([5000, RELEASE], [5000, { kind: 'stop' }]), 5500)).toMatchObject({ state: 'ended' });
    // A stop for the end of the pass that was called before the hold still waits for it.
    const early = play(tune, [700, { kind: 'stop', at: 'pass' }], [1100, HOLD], [5000, RELEASE]);
    expect(locate(early, 5500 + 13_999)).toMatchObject({ state: 'playing', place: { barIndex: 7 } });
    expect(locate(early, 5500 + 14_000)).toEqual({ state: 'ended', atMs: 19_500 });
    // A stop whose notice is over in the hold lands then, be it between two pulses.
    expect(locate(play(tune, [1090, HOLD], [1150, { kind: 'stop' }]), 1650)).toMatchObject({ atMs: 1650 });
  });

  it('[STAGE-41] a stop whose notice is over within a hold is judged as it lands, in a loop too', () => {
    const held = road(
      [leg('A', 1, bars('a', 1)), leg('B', 1, bars('b', 2, { 0: { marks: [mark({ kind: 'hold' })] } }))],
      { countBars: 0 },
    );
    const loop: Cue = { kind: 'loop', leg: 'B', from: 0, to: 0 };
    const calls: Calls = [
      [1000, { kind: 'start' }],
      [1000, loop],
    ];
    const stop: Cue = { kind: 'stop', at: 'pass' };
    expect(judge(perform(take(held, calls)), stop, 1101)).toMatchObject({ ok: true, landsMs: 1601 });
    expect(locate(perform(take(held, [...calls, [1101, stop]])), 1601)).toMatchObject({ state: 'ended' });
  });

  it('[STAGE-41] here goes on at once from that bar, and drops a release', () => {
    const performance = held(
      [5000, { kind: 'release', onTap: true }],
      [6000, { kind: 'here', leg: 'A', barIndex: 4 }],
      [6700, HOLD],
    );
    expect(at(performance, 6000)).toBe('A 1.5+0');
    expect(at(performance, 6000 + 999)).toBe('A 1.5+1.998');
    // Notice of the second hold is over at 7,200, pulse 2.4 of bar 5.
    expect(locate(performance, 6000 + 3000)).toMatchObject({
      state: 'held',
      place: { barIndex: 5, pulse: 2 },
    });
    expect(at(performance, 1e6)).toBe('held');
  });

  it('[STAGE-41] says Infinity for what comes after, since nobody can say when', () => {
    const performance = held([1500, { kind: 'goTo', leg: 'C', barIndex: 0 }]);
    expect(announced(performance, 1550)).toMatchObject([
      { name: 'Hold', detail: 'the top', landsMs: 1600, barsToGo: 0, beatsToGo: 1 },
      {
        name: 'Go to',
        landsMs: NEVER,
        barsToGo: NEVER,
        beatsToGo: NEVER,
        landsAt: { leg: 'C', barIndex: 0 },
      },
    ]);
    expect(judge(held(), { kind: 'oneMore' }, 5000)).toMatchObject({
      landsMs: NEVER,
      barsToGo: NEVER,
    });
    expect(upcoming(performance, 5000, 3).map(({ place, startMs }) => [place.barIndex, startMs])).toEqual([
      ...[
        [1, NEVER],
        [2, NEVER],
        [3, NEVER],
      ],
    ]);
    const released = held([1500, { kind: 'goTo', leg: 'C', barIndex: 0 }], [5000, RELEASE]);
    expect(announced(released, 5100)).toMatchObject([
      { name: 'Release', detail: 'bar 2', landsMs: 5500, barsToGo: 1, beatsToGo: 1 },
      { name: 'Go to', landsMs: 5500 + 6000, barsToGo: 4 },
    ]);
  });
});

describe('A hold that is written', () => {
  const written = (marks: BarSpec['marks'], more: BarSpec = {}) =>
    road(
      [
        leg('A', 2, two('a', 4, { 1: { ...more, marks: marks ?? [] } })),
        leg('B', 'open', two('b', 4)),
        leg('C', 1, two('c', 4)),
      ],
      { countBars: 0 },
    );
  const onTwo = written([mark({ kind: 'hold' }, 2)]);

  it('[STAGE-42] acts by itself at the token before which it stands', () => {
    const performance = play(onTwo, [9000, RELEASE]);
    expect(locate(performance, 3600)).toMatchObject({ state: 'held', sinceMs: 3600, place: { barIndex: 1 } });
    expect(at(performance, 9500)).toBe('A 1.3+0');
    // The next time round it holds again.
    expect(locate(performance, 9500 + 4000 + 3000)).toMatchObject({
      state: 'held',
      place: { pass: 2, pulse: 2 },
    });
    expect(locate(play(written([mark({ kind: 'onCue' })])), 2600)).toMatchObject({
      state: 'held',
      place: { barIndex: 1, pulse: 0 },
    });
  });

  it('[STAGE-42] is announced like a cue, and what is written after it in the bar is gone', () => {
    const marks = [mark({ kind: 'hold' }, 2), mark({ kind: 'tempo', bpm: 60 }, 3)];
    const performance = play(written(marks));
    expect(announced(performance, 700)).toMatchObject([
      {
        kind: 'hold',
        family: 'out',
        name: 'Hold',
        landsMs: 3600,
        barsToGo: 1,
        written: true,
        canTakeBack: false,
      },
      // The second time round, when nobody knows.
      { kind: 'hold', landsMs: NEVER, barsToGo: NEVER },
    ]);
    expect(announced(play(written([mark({ kind: 'onCue' })])), 700)[0]).toMatchObject({
      kind: 'onCue',
      name: 'On cue',
      landsMs: 2600,
    });
    const released = play(written(marks), [9000, RELEASE]);
    expect(locate(released, 9500)).toMatchObject({ state: 'playing', bpm: 120 });
  });

  it('[STAGE-42] of the last pass holds there only, and parts that pass from the others', () => {
    const last = written([mark({ kind: 'hold' }, 2, 'last')]);
    expect(at(play(last), 3600)).toBe('A 1.2+2');
    expect(locate(play(last), 600 + 8000 + 3000)).toMatchObject({ state: 'held', place: { pass: 2 } });
    const open = road(
      [
        leg('B', 'open', two('b', 4, { 2: { marks: [mark({ kind: 'hold' }, 2, 'last')] } })),
        leg('C', 1, two('c', 2)),
      ],
      { countBars: 0 },
    );
    // In time for bar 3 the last chorus is this pass; later the next.
    expect(locate(play(open, [3000, { kind: 'lastChorus' }]), 5600)).toMatchObject({ state: 'held' });
    const late = play(open, [5000, { kind: 'lastChorus' }]);
    expect(at(late, 5600)).toBe('B 1.3+2');
    expect(locate(late, 5600 + 8000)).toMatchObject({ state: 'held', place: { pass: 2, barIndex: 2 } });
  });

  it('[STAGE-42] meets a called hold and a here as one', () => {
    const performance = play(onTwo, [3000, HOLD], [9000, RELEASE]);
    expect(locate(performance, 3600)).toMatchObject({ state: 'held', sinceMs: 3600 });
    expect(at(performance, 9500)).toBe('A 1.3+0');
    const onOne = written([mark({ kind: 'hold' })]);
    const here = (more: object): Cue => ({ kind: 'here', leg: 'A', barIndex: 1, ...more });
    expect(at(play(onOne, [900, here({})]), 900)).toBe('held');
    // Since the press 250 ms ago the band has held.
    expect(locate(play(onOne, [900, here({ pressedAtMs: 650 })]), 900)).toMatchObject({
      state: 'held',
      place: { pulse: 0 },
    });
    expect(at(play(onOne, [900, here({ pulse: 1 })]), 900)).toBe('A 1.2+1');
  });

  it('[STAGE-40] the tempo after the release is the tempo at which the hold was reached', () => {
    // From 120 to 60 over 4 bars of 4 pulses, begun at 1,600: 16 pulses take 10,666.67 ms. The hold lies 4 pulses
    // on; v² changes evenly with the pulses: v² = 120² + (60² − 120²) · 4 / 16 = 11,700.
    const performance = play(onTwo, [1000, { kind: 'tempo', bpm: 60, overBars: 4 }], [12_000, RELEASE]);
    const held = locate(performance, 11_000);
    expect(held).toMatchObject({ state: 'held', place: { barIndex: 1, pulse: 2 } });
    expect(tempoAt(performance, 11_000)).toBeCloseTo(Math.sqrt(11_700), 6);
    const on = locate(performance, 13_000);
    expect(on.state === 'playing' && on.bpm).toBeCloseTo(Math.sqrt(11_700), 6);
    const later = locate(performance, 15_000);
    expect(later.state === 'playing' && later.bpm).toBeCloseTo(Math.sqrt(11_700), 6);
  });

  it('[STAGE-20] before it a take is counted in as ever', () => {
    expect(locate(perform(take({ ...onTwo, countBars: 2 }, [[0, START]])), 4599)).toMatchObject({
      state: 'count',
    });
  });
});
