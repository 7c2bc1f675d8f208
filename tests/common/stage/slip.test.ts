import { describe, expect, it } from 'vitest';
import type { Cue } from '../../../common/stage/cue.ts';
import { judge } from '../../../common/stage/judge.ts';
import { perform } from '../../../common/stage/perform.ts';
import { at, outs, play } from './support-read.ts';
import { bars, leg, mark, road, take } from './support-road.ts';

/** At 120 without a count-in bar n begins at 600 + (n − 1) · 2,000. */
const tune = road([leg('A', 2, bars('a', 8))], { countBars: 0 });
const here = (barIndex: number, pulse: number, more: object = {}): Cue => ({
  kind: 'here',
  leg: 'A',
  barIndex,
  pulse,
  ...more,
});

describe('A slip', () => {
  it('[STAGE-43] by a beat or half a bar sets the pulse of a bar', () => {
    // Bar 3 begins at 4,600. The turnaround came a beat late: its beat one is at 5,100.
    const late = play(tune, [5100, here(2, 0)]);
    expect(at(late, 5099)).toBe('A 1.3+0.998');
    expect(at(late, 5100)).toBe('A 1.3+0');
    expect(at(late, 7100)).toBe('A 1.4+0');
    const half = play(tune, [5100, here(2, 3)]);
    expect(at(half, 5100)).toBe('A 1.3+3');
    expect(at(half, 5600)).toBe('A 1.4+0');
    expect(at(play(tune, [4700, here(1, 3.2)]), 5100)).toBe('A 1.3+0');
  });

  it('[STAGE-43] adds what has gone by since the press', () => {
    expect(at(play(tune, [5100, here(2, 3, { pressedAtMs: 4850 })]), 5100)).toBe('A 1.3+3.5');
    expect(at(play(tune, [5100, here(2, 3, { pressedAtMs: 4350 })]), 5100)).toBe('A 1.4+0.5');
  });

  it('[STAGE-43] goes to a beat that the bar has, in a take that waits too', () => {
    for (const pulse of [4, -1, 17, Number.NaN]) {
      expect(judge(play(tune), here(2, pulse), 5100)).toMatchObject({ ok: false, why: 'noSuchPulse' });
    }
    expect(at(perform(take(tune, [[700, here(3, 2)]])), 700)).toBe('A 1.4+2');
  });

  it('[STAGE-43] leaves the end of a break where it was', () => {
    const broken = road([leg('A', 1, bars('a', 8, { 2: { marks: [mark({ kind: 'break', bars: 3 })] } }))], {
      countBars: 0,
    });
    expect(outs(play(broken), 8)).toBe('..Hoo...');
    // Within bar 4: it is heard as one more bar of the log, and the band is back in bar 6 all the same.
    expect(outs(play(broken, [7100, here(3, 0)]), 9)).toBe('..Hooo...');
    // Back over the line to bar 3, which is silent now; on over the line to bar 5.
    expect(outs(play(broken, [6700, here(2, 3)]), 10)).toBe('..Hoooo...');
    expect(outs(play(broken, [8500, here(4, 0)]), 8)).toBe('..Hoo...');
    // A jump farther than that counts the break on in bars as played.
    expect(outs(play(broken, [7100, here(5, 0)]), 7)).toBe('..Hoo..');
  });
});
