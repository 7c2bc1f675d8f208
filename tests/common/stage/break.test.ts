import { describe, expect, it } from 'vitest';
import type { Cue } from '../../../common/stage/cue.ts';
import { judge } from '../../../common/stage/judge.ts';
import { allBars, outs, play } from './support-read.ts';
import { bars, leg, mark, road } from './support-road.ts';

const eight = bars('a', 8);
const open = road([leg('Head', 1, eight), leg('Solos', 'open', eight)], { countBars: 0 });
const breakFor = (n: number, at?: 'phrase' | 'pass' | 'lastBars'): Cue => ({
  kind: 'break',
  bars: n,
  ...(at === undefined ? {} : { at }),
});

describe('Break', () => {
  it('[STAGE-25] hits beat one after the phrase and is out for so many bars', () => {
    const performance = play(open, [1000, breakFor(2)]);
    expect(outs(performance, 8)).toBe('....Ho..');
    expect(allBars(performance, 6).map(({ outBarsLeft }) => outBarsLeft)).toEqual([
      ...[undefined, undefined, undefined, undefined],
      ...[1, 0],
    ]);
    expect(allBars(performance, 5)[4]?.lands).toEqual(['c2']);
  });

  it('[STAGE-25] lands at the pass end, and runs across passes and legs as played', () => {
    expect(outs(play(open, [1000, breakFor(3, 'pass')]), 12)).toBe('........Hoo.');
    expect(outs(play(open, [1000, breakFor(6)]), 12)).toBe('....Hooooo..');
    expect(outs(play(open, [17_000, breakFor(10)]), 24)).toBe('............Hooooooooo..');
  });

  it('[STAGE-25] can be the last bars of the pass, the solo break into the next', () => {
    expect(outs(play(open, [1000, breakFor(2, 'lastBars')]), 9)).toBe('......Ho.');
    // Too late for this pass, so it is the next one's.
    expect(outs(play(open, [13_000, breakFor(2, 'lastBars')]), 17)).toBe('..............Ho.');
    expect(judge(play(open), breakFor(2, 'lastBars'), 1000)).toMatchObject({ landsMs: 12_600, barsToGo: 6 });
    // A pass shorter than the break is out from its top.
    expect(outs(play(open, [1000, breakFor(9, 'lastBars')]), 18)).toBe('........Hoooooooo.');
  });

  it('[STAGE-25] goes on where the form goes on: a go to does not end it', () => {
    const goTo: Cue = { kind: 'goTo', leg: 'Head', barIndex: 6 };
    expect(outs(play(open, [1000, breakFor(4)], [1100, goTo]), 7)).toBe('....Hoo');
  });

  it('[STAGE-25] that lands later begins anew', () => {
    expect(outs(play(open, [1000, breakFor(6)], [9000, breakFor(1)]), 10)).toBe('....HoooH.');
  });

  it('[STAGE-33] written acts at its bar, and lies silent within one that was called', () => {
    const on = road([leg('Head', 2, bars('a', 8, { 5: { marks: [mark({ kind: 'break', bars: 2 })] } }))], {
      countBars: 0,
    });
    expect(outs(play(on), 16)).toBe('.....Ho......Ho.');
    expect(outs(play(on, [1000, breakFor(2)]), 8)).toBe('....Hoo.');
  });

  it('[STAGE-34] written for one pass acts in that pass only', () => {
    const on = (pass: number | 'last', passes: number | 'open') =>
      road(
        [leg('Head', passes, bars('a', 2, { 1: { marks: [mark({ kind: 'break', bars: 1 }, 0, pass)] } }))],
        {
          countBars: 0,
        },
      );
    expect(outs(play(on(2, 3)), 6)).toBe('...H..');
    expect(outs(play(on('last', 3)), 6)).toBe('.....H');
    expect(outs(play(on('last', 'open')), 6)).toBe('......');
    // It acts as soon as the last chorus is called, and not when that was taken back before.
    const lastCall = [3000 + 2000, { kind: 'lastChorus' }] as const;
    expect(outs(play(on('last', 'open'), lastCall), 6)).toBe('...H');
    expect(outs(play(on('last', 'open'), lastCall, [5200, { kind: 'takeBack', cue: 'c2' }]), 6)).toBe(
      '......',
    );
  });

  it('[STAGE-25] is refused where it is no number of bars, and where the tune ends at that line', () => {
    for (const n of [0, -1, 1.5, Number.NaN]) {
      expect(judge(play(open), breakFor(n), 1000)).toMatchObject({ ok: false, why: 'badBreak' });
    }
    const once = road([leg('Head', 1, eight)], { countBars: 0 });
    expect(judge(play(once), breakFor(2, 'pass'), 1000)).toMatchObject({ ok: false, why: 'over' });
  });
});
