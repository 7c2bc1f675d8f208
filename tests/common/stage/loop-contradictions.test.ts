import { describe, expect, it } from 'vitest';
import { announced } from '../../../common/stage/announce.ts';
import type { Cue } from '../../../common/stage/cue.ts';
import { loopAt } from '../../../common/stage/in-force.ts';
import { judge } from '../../../common/stage/judge.ts';
import { locate } from '../../../common/stage/locate.ts';
import { allBars, at, outs, play, told } from './support-read.ts';
import { bars, leg, road } from './support-road.ts';

const NEVER = Number.POSITIVE_INFINITY;
const loop = (from: number, to: number, legId = 'Solos'): Cue => ({ kind: 'loop', leg: legId, from, to });
const goTo = (barIndex: number, legId = 'Solos'): Cue => ({ kind: 'goTo', leg: legId, barIndex });
const OFF: Cue = { kind: 'loopOff' };
const LAST: Cue = { kind: 'lastChorus' };
const eight = bars('a', 8);
/** Solos of eight bars from 600 on, a pass every 16 s; then Out. */
const tune = road([leg('Solos', 'open', eight), leg('Out', 1, eight)], { countBars: 0 });
const barsFrom = (performance: ReturnType<typeof play>, from: number, to: number) =>
  told(performance, to).slice(from);

describe('A loop and the end of the pass', () => {
  it('[STAGE-61] never ends a pass, where its last bar is that of the pass too', () => {
    const performance = play(tune, [1000, loop(6, 7)], [1000, { kind: 'up' }]);
    expect(barsFrom(performance, 4, 10)).toEqual([
      'Solos 1.7',
      'Solos 1.8',
      'Solos 1.7',
      'Solos 1.8',
      'Solos 1.7',
      'Solos 1.8',
    ]);
    expect(allBars(performance, 10).every(({ semitones }) => semitones === undefined)).toBe(true);
  });

  it('[STAGE-65] lets a last chorus wait, and says so', () => {
    const performance = play(tune, [1000, loop(6, 7)], [9000, LAST]);
    expect(announced(performance, 9500)).toMatchObject([
      { name: 'Last chorus', detail: 'after the loop', landsMs: NEVER, barsToGo: NEVER, canTakeBack: true },
    ]);
    expect(judge(play(tune, [1000, loop(6, 7)]), LAST, 9000)).toMatchObject({
      ok: true,
      landsMs: NEVER,
      landsAt: { leg: 'Solos', pass: 1, barIndex: 7 },
    });
    // Off at 12,600 with the pass; the last chorus is the next one, from 12,600 to 28,600.
    const off = play(tune, [1000, loop(6, 7)], [9000, LAST], [10_000, OFF]);
    expect(barsFrom(off, 4, 15)).toEqual([
      ...['Solos 1.7', 'Solos 1.8'],
      ...[1, 2, 3, 4, 5, 6, 7, 8].map((n) => `Solos 2.${n}`),
      'Out 1.1',
    ]);
    expect(announced(off, 20_000)).toMatchObject([{ name: 'Last chorus', detail: 'Out', landsMs: 28_600 }]);
  });

  it('[STAGE-67] drops a last chorus whose leg has been left', () => {
    const twice = road([leg('Solos', 'open', eight), leg('Out', 2, eight)], { countBars: 0 });
    const performance = play(twice, [1000, loop(6, 7)], [9000, LAST], [9000, goTo(0, 'Out')]);
    expect(barsFrom(performance, 6, 23)).toEqual([
      ...[1, 2, 3, 4, 5, 6, 7, 8].map((n) => `Out 1.${n}`),
      ...[1, 2, 3, 4, 5, 6, 7, 8].map((n) => `Out 2.${n}`),
      'end',
    ]);
  });

  it('[STAGE-62] goes on with the next leg where it is off at the end of the last pass', () => {
    const performance = play(tune, [1000, loop(6, 7)], [700, LAST]);
    // The last chorus was called first (its stamp counts as 1,000): it waits too.
    expect(at(performance, 1e6)).toMatch(/^Solos 1\.[78]/);
    const out = play(tune, [1000, goTo(4, 'Out')], [9000, loop(6, 7, 'Out')], [17_000, OFF]);
    expect(barsFrom(out, 4, 12)).toEqual([
      ...['Out 1.5', 'Out 1.6', 'Out 1.7', 'Out 1.8', 'Out 1.7', 'Out 1.8'],
      'end',
    ]);
  });

  it('[STAGE-65] lets a stop at the pass end wait, not a stop', () => {
    const waits = play(tune, [1000, loop(6, 7)], [9000, { kind: 'stop', at: 'pass' }]);
    expect(at(waits, 1e6)).toMatch(/^Solos/);
    const stopped = play(tune, [1000, loop(6, 7)], [20_000, { kind: 'stop' }]);
    expect(locate(stopped, 21_000)).toEqual({ state: 'ended', atMs: 20_600 });
    expect(loopAt(stopped, 21_000)).toBeNull();
  });

  it('[STAGE-65] lets adopt wait, so that the bars of the loop stay', () => {
    const other = road([leg('Solos', 'open', bars('n', 2))], { countBars: 0 });
    const performance = play(tune, [1000, loop(4, 7)], [9000, { kind: 'adopt', road: other }], [10_000, OFF]);
    // Off at 16,600 with the pass: adopt lands with the next one, at 32,600.
    expect(
      allBars(performance, 18)
        .map(({ bar }) => bar.id)
        .slice(4),
    ).toEqual([
      ...['a5', 'a6', 'a7', 'a8'],
      ...['a1', 'a2', 'a3', 'a4', 'a5', 'a6', 'a7', 'a8'],
      ...['n1', 'n2'],
    ]);
  });

  it('[STAGE-66] is dropped where an arrangement that lands with it has no such bars', () => {
    const other = road([leg('Solos', 'open', bars('n', 2))], { countBars: 0 });
    const performance = play(tune, [13_000, { kind: 'adopt', road: other }], [13_000, loop(4, 7)]);
    expect(barsFrom(performance, 7, 11)).toEqual(['Solos 1.8', 'Solos 2.1', 'Solos 2.2', 'Solos 3.1']);
    expect(announced(performance, 14_000).map(({ name }) => name)).toEqual(['New arrangement']);
  });

  it('[STAGE-65] lets a tag and a break for other bars wait, and lands a break for its own', () => {
    const lastBars = (n: number): Cue => ({ kind: 'break', bars: n, at: 'lastBars' });
    const performance = play(tune, [1000, loop(6, 7)], [9000, lastBars(4)], [9000, { kind: 'tag' }]);
    expect(announced(performance, 9500).map(({ name, detail }) => `${name} · ${detail}`)).toEqual([
      'Break · after the loop',
      'Tag · after the loop',
    ]);
    expect(outs(play(tune, [1000, loop(6, 7)], [9000, lastBars(2)]), 10)).toBe('......Ho..');
    expect(judge(play(tune, [1000, loop(6, 7)]), { kind: 'hold', barIndex: 3 }, 9000)).toMatchObject({
      landsMs: NEVER,
    });
    expect(judge(play(tune, [1000, loop(6, 7)]), { kind: 'hold', barIndex: 7 }, 9000)).toMatchObject({
      landsMs: 10_600,
    });
  });
});

describe('A loop and other places', () => {
  it('[STAGE-66] decides the place against a go to that was called before it, and loses it to a later one', () => {
    expect(barsFrom(play(tune, [1000, goTo(0)], [1000, loop(5, 5)]), 3, 6)).toEqual([
      'Solos 1.4',
      'Solos 1.6',
      'Solos 1.6',
    ]);
    const gone = play(tune, [1000, loop(5, 5)], [1000, goTo(0)]);
    expect(barsFrom(gone, 3, 6)).toEqual(['Solos 1.4', 'Solos 1.1', 'Solos 1.2']);
    expect(loopAt(gone, 9000)).toBeNull();
    expect(barsFrom(play(tune, [1000, loop(5, 5)], [1000, loop(1, 1)]), 3, 6)).toEqual([
      ...['Solos 1.4', 'Solos 1.2', 'Solos 1.2'],
    ]);
  });

  it('[STAGE-61] is left by a go to at the end of a round, by here, and for another loop', () => {
    const gone = play(tune, [1000, loop(4, 5)], [9000, goTo(0)]);
    expect(barsFrom(gone, 4, 9)).toEqual(['Solos 1.5', 'Solos 1.6', 'Solos 1.1', 'Solos 1.2', 'Solos 1.3']);
    const here = play(tune, [1000, loop(4, 5)], [9100, { kind: 'here', leg: 'Solos', barIndex: 5 }]);
    expect(loopAt(here, 9100)).toBeNull();
    expect(at(here, 11_100)).toBe('Solos 1.7+0');
    const other = play(tune, [1000, loop(4, 5)], [9000, loop(1, 2)]);
    expect(barsFrom(other, 4, 9)).toEqual(['Solos 1.5', 'Solos 1.6', 'Solos 1.2', 'Solos 1.3', 'Solos 1.2']);
    expect(allBars(other, 8)[6]?.loop).toEqual({ from: 1, to: 2, round: 1 });
  });

  it('[STAGE-43] [STAGE-61] stays on through a slip within the round', () => {
    const slip = (barIndex: number, pulse: number): Cue => ({ kind: 'here', leg: 'Solos', barIndex, pulse });
    // Bar 5 is on from 8,600; at 9,600, on pulse 2, the band is a beat behind.
    const performance = play(tune, [1000, loop(4, 5)], [9600, slip(4, 1)]);
    expect(at(performance, 9600)).toBe('Solos 1.5+1');
    expect(at(performance, 13_100)).toBe('Solos 1.5+0');
    expect(loopAt(performance, 13_100)?.round).toBe(2);
    expect(loopAt(play(tune, [1000, loop(4, 5)], [9600, slip(6, 0)]), 9600)).toBeNull();
  });

  it('[STAGE-61] keeps a break in it, over the round', () => {
    const performance = play(tune, [1000, loop(4, 5)], [9000, { kind: 'break', bars: 3 }]);
    expect(outs(performance, 10)).toBe('......Hoo.');
  });

  it('[STAGE-41] [STAGE-61] holds in it, and the release is followed by the next bar of the round', () => {
    const performance = play(
      tune,
      [1000, loop(4, 5)],
      [9000, { kind: 'hold', barIndex: 5 }],
      [13_000, { kind: 'release' }],
    );
    expect(locate(performance, 11_000)).toMatchObject({ state: 'held', place: { barIndex: 5, pulse: 0 } });
    expect(at(performance, 13_500)).toBe('Solos 1.5+0');
    expect(loopAt(performance, 13_500)?.round).toBe(2);
  });

  it('[STAGE-61] loops bars of a tag, and a leg with its last bars', () => {
    const coda = road([leg('A', 1, eight, { lastBars: [...eight.slice(0, 4), ...bars('c', 2)] })], {
      countBars: 0,
    });
    expect(barsFrom(play(coda, [1000, loop(3, 5, 'A')]), 3, 9)).toEqual([
      ...['A 1.4', 'A 1.4', 'A 1.5', 'A 1.6', 'A 1.4', 'A 1.5'],
    ]);
    expect(allBars(play(coda, [1000, loop(3, 5, 'A')]), 7).at(-1)?.bar.id).toBe('c2');
    expect(judge(play(coda), loop(3, 6, 'A'), 1000)).toMatchObject({ why: 'noSuchPlace' });
    const tagged = road([leg('A', 1, eight), leg('Tag', 2, eight.slice(6), { tag: { timesInAll: 3 } })], {
      countBars: 0,
    });
    expect(barsFrom(play(tagged, [1000, loop(0, 1, 'Tag')], [9000, OFF]), 3, 9)).toEqual([
      ...['A 1.4', 'Tag 1.1', 'Tag 1.2', 'Tag 2.1', 'Tag 2.2', 'end'],
    ]);
  });

  it('[STAGE-61] goes round in the count-in of a take that begins there', () => {
    const counted = { ...tune, countBars: 1 };
    const performance = play(counted, [700, loop(0, 1)]);
    expect(told(performance, 4)).toEqual(['Solos 1.1', 'Solos 1.2', 'Solos 1.1', 'Solos 1.2']);
  });
});
