import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { announced } from '../../../common/stage/announce.ts';
import type { Cue } from '../../../common/stage/cue.ts';
import { isOverruled } from '../../../common/stage/overruled.ts';
import { perform } from '../../../common/stage/perform.ts';
import { upcoming } from '../../../common/stage/upcoming.ts';
import { play } from './support-read.ts';
import { bars, leg, road, START, take } from './support-road.ts';

const eight = bars('a', 8, { 4: { letter: 'B' } });
const tune = road([leg('Head', 2, eight), leg('Solos', 'open', eight), leg('Out', 1, eight)], {
  countBars: 0,
});
const MORE: Cue = { kind: 'oneMore' };
const LAST: Cue = { kind: 'lastChorus' };

const say = (performance: ReturnType<typeof perform>, tMs: number): string[] =>
  announced(performance, tMs).map(({ name, detail }) => (detail === '' ? name : `${name} · ${detail}`));
/** What is announced when all of them have been called, in this order, in the first pass of the Head. */
const calling = (...cues: readonly Cue[]): string[] =>
  say(play(tune, ...cues.map((cue, i): [number, Cue] => [2000 + i, cue])), 4000);

describe('Of two answers to one question', () => {
  it('[STAGE-69] only the last chorus is announced that was called after one more', () => {
    expect(calling(MORE, LAST)).toEqual(['Last chorus · Solos']);
    expect(calling(MORE, MORE, LAST)).toEqual(['Last chorus · Solos']);
  });

  it('[STAGE-69] one more after a last chorus leaves both, for both are so', () => {
    expect(calling(LAST, MORE)).toEqual(['Last chorus · after one more', 'One more · Head again']);
    expect(calling(MORE, LAST, MORE)).toEqual(['Last chorus · after one more', 'One more · Head again']);
  });

  it('[STAGE-69] is announced again where the later one is taken back', () => {
    const { cues } = take(tune, [
      [0, START],
      [2000, MORE],
      [2001, LAST],
    ]);
    const last = cues.at(-1)?.id ?? '';
    const back = { id: 'back', cue: { kind: 'takeBack', cue: last }, calledAtMs: 3000 } as const;
    expect(say(perform({ ...take(tune, []), cues: [...cues, back] }), 4000)).toEqual([
      'One more · Head again',
    ]);
  });

  it('[STAGE-69] the later called wins: where to go, how loud, how fast, in which feel, who trades', () => {
    const to = (barIndex: number): Cue => ({ kind: 'goTo', leg: 'Head', barIndex });
    expect(calling(to(2), to(4))).toEqual(['Go to · letter B']);
    expect(calling(to(4), { kind: 'loop', leg: 'Head', from: 0, to: 1 })).toEqual(['Loop · bars 1–2']);
    expect(calling({ kind: 'feel', feel: 'half' }, { kind: 'feel', feel: 'double' })).toEqual([
      'Double-time',
    ]);
    expect(calling({ kind: 'break', bars: 2 }, { kind: 'break', bars: 4 })).toEqual(['Break · 4 bars']);
    expect(calling({ kind: 'stopTime' }, { kind: 'stopTimeOff' })).toEqual(['Stop-time off · play on']);
    const trade = (bars: number): Cue => ({ kind: 'trade', bars, players: ['Bea', 'drums'] });
    expect(calling(trade(4), trade(2))).toHaveLength(1);
    const loud = play(
      tune,
      [2000, { kind: 'dynamic', dynamic: 'down' }],
      [2001, { kind: 'dynamic', dynamic: 'build' }],
      [2002, { kind: 'tempo', bpm: 90 }],
      [2003, { kind: 'tempo', bpm: 100 }],
    );
    expect(say(loud, 2010)).toEqual(['Build', 'Tempo · 100']);
  });

  it('[STAGE-69] who is taken out of the leg has no more passes of it to count', () => {
    const outOfIt = play(tune, [15_000, MORE], [15_001, { kind: 'goTo', leg: 'Out', barIndex: 0 }]);
    expect(say(outOfIt, 15_500)).toEqual(['Go to · Out']);
    const inIt = play(tune, [15_000, MORE], [15_001, { kind: 'goTo', leg: 'Head', barIndex: 4 }]);
    expect(say(inIt, 15_500)).toEqual(['One more · Head again', 'Go to · letter B']);
  });

  it('[STAGE-69] cues at other lines, and those that add up, are all announced', () => {
    expect(calling({ kind: 'break', bars: 2 }, { kind: 'break', bars: 1, at: 'pass' })).toHaveLength(2);
    expect(calling({ kind: 'up' }, { kind: 'up' })).toHaveLength(2);
    expect(calling(MORE, MORE)).toHaveLength(2);
  });

  it('[STAGE-69] what is left out makes no difference to what is played', () => {
    const cues: readonly Cue[] = [
      MORE,
      LAST,
      { kind: 'goTo', leg: 'Head', barIndex: 4 },
      { kind: 'goTo', leg: 'Out', barIndex: 2 },
      { kind: 'loop', leg: 'Head', from: 0, to: 3 },
      { kind: 'break', bars: 2 },
      { kind: 'break', bars: 3 },
      { kind: 'feel', feel: 'half' },
      { kind: 'feel', feel: 'double' },
      { kind: 'stopTime' },
      { kind: 'stopTimeOff' },
    ];
    const played = (...called: readonly Cue[]) =>
      upcoming(play(tune, ...called.map((cue, i): [number, Cue] => [15_000 + i, cue])), 15_500, 30).map(
        ({ lands, ...coming }) => coming,
      );
    // All of them land at the same line, the end of the first pass.
    fc.assert(
      fc.property(fc.constantFrom(...cues), fc.constantFrom(...cues), (first, second) => {
        fc.pre(isOverruled(first, second, 'Head'));
        expect(played(first, second)).toEqual(played(second));
      }),
    );
  });
});
