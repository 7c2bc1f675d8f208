import { describe, expect, it } from 'vitest';
import { announced } from '../../../common/stage/announce.ts';
import type { Cue } from '../../../common/stage/cue.ts';
import { soloAt } from '../../../common/stage/in-force.ts';
import { judge } from '../../../common/stage/judge.ts';
import { type Performance, perform } from '../../../common/stage/perform.ts';
import { allBars, play } from './support-read.ts';
import { bars, leg, road, START, take } from './support-road.ts';

const order = (...players: string[]): Cue => ({ kind: 'soloOrder', players });
const NEXT: Cue = { kind: 'nextSoloist' };
const LAST: Cue = { kind: 'lastChorus' };
const a = bars('a', 4);
/** A pass every 8 s from 600 on: Head at 600, Solos at 8,600, 16,600 … */
const tune = road([leg('Head', 1, a), leg('Solos', 'open', a), leg('Shout', 1, a), leg('Solos 2', 2, a)], {
  countBars: 0,
});
const solos = (performance: Performance, most: number) =>
  allBars(performance, most)
    .map(
      ({ soloist, place, index }) => `${index > 0 && place.barIndex === 0 ? '|' : ''}${soloist?.[0] ?? '.'}`,
    )
    .join('');
const now = (performance: Performance, tMs: number) => {
  const solo = soloAt(performance, tMs);
  return solo && [solo.now, solo.next];
};

describe('The solo order', () => {
  it('[STAGE-59] is shown at once, and begins with the solos', () => {
    const performance = play(tune, [1000, order('Tomas', 'Bea')]);
    expect(soloAt(performance, 999)).toBeNull();
    expect(soloAt(performance, 1000)).toEqual({ order: ['Tomas', 'Bea'], now: null, next: 'Tomas' });
    expect([8599, 8600].map((t) => now(performance, t))).toEqual([
      [null, 'Tomas'],
      ['Tomas', 'Bea'],
    ]);
    expect(solos(performance, 12)).toBe('....|TTTT|TTTT');
    expect(now(perform(take(tune, [[500, order('Tomas')]])), 500)).toEqual([null, 'Tomas']);
  });

  it('[STAGE-59] begins at once where somebody solos already', () => {
    const performance = play(tune, [9000, order('Tomas', 'Bea')], [25_000, order('Ines')]);
    expect([8999, 9000, 25_000].map((t) => now(performance, t))).toEqual([
      null,
      ['Tomas', 'Bea'],
      ['Ines', null],
    ]);
  });

  it('[STAGE-59] ends with its leg, and the next one begins in the next leg for solos', () => {
    const performance = play(tune, [1000, order('Tomas', 'Bea')], [9000, LAST]);
    // Solos ×1, the Shout at 16,600, Solos 2 at 24,600.
    expect(solos(performance, 20)).toBe('....|TTTT|....|BBBB|BBBB');
    expect(now(performance, 17_000)).toEqual([null, 'Bea']);
    const again = play(tune, [1000, order('Tomas')], [9000, LAST]);
    expect(solos(again, 20)).toBe('....|TTTT|....|....|....');
  });

  it('[STAGE-59] is refused without names', () => {
    expect(judge(play(tune), order(), 1000)).toMatchObject({
      why: 'noPlayers',
      words: 'Name somebody first.',
    });
    expect(judge(play(tune), order(' '), 1000)).toMatchObject({ why: 'badPlayers' });
  });
});

describe('The next soloist', () => {
  it('[STAGE-60] comes in at the top, told by who stops and who is next', () => {
    const performance = play(tune, [1000, order('Tomas', 'Bea')], [10_000, NEXT]);
    expect(solos(performance, 16)).toBe('....|TTTT|BBBB|BBBB');
    expect(announced(performance, 13_000)).toMatchObject([
      { family: 'move', name: 'Tomas’s last', detail: 'Bea next', barsToGo: 2, landsMs: 16_600 },
    ]);
    expect([16_599, 16_600].map((t) => now(performance, t))).toEqual([
      ['Tomas', 'Bea'],
      ['Bea', null],
    ]);
  });

  it('[STAGE-60] called in the head is the first of the order', () => {
    const performance = play(tune, [1000, order('Tomas', 'Bea')], [2000, NEXT]);
    expect(solos(performance, 12)).toBe('....|TTTT|TTTT');
    expect(announced(performance, 5000)).toMatchObject([{ name: 'Next soloist', detail: 'Tomas' }]);
  });

  it('[STAGE-60] is refused without an order, after the last, and where no solos follow', () => {
    expect(judge(play(tune), NEXT, 9000)).toMatchObject({ why: 'noOrder' });
    expect(judge(play(tune, [1000, order('Tomas')]), NEXT, 9000)).toMatchObject({
      why: 'noNext',
      words: 'Tomas is the last in the order.',
    });
    const closing = play(tune, [1000, order('Tomas', 'Bea')], [9000, LAST]);
    expect(judge(closing, NEXT, 10_000)).toMatchObject({
      why: 'noSolos',
      words: 'Shout comes next: no solo there.',
    });
  });

  it('[STAGE-60] is dropped by a last chorus that is called after it', () => {
    const performance = play(tune, [1000, order('Tomas', 'Bea')], [9000, NEXT], [10_000, LAST]);
    expect(announced(performance, 11_000).map(({ name }) => name)).toEqual(['Last chorus']);
    expect(solos(performance, 16)).toBe('....|TTTT|....|BBBB');
  });

  it('[STAGE-58] [STAGE-60] ends the trading', () => {
    const performance = play(
      tune,
      [1000, order('Tomas', 'Bea')],
      [10_000, { kind: 'trade', bars: 2, players: ['Tomas', 'drums'] }],
      [18_000, NEXT],
    );
    const turns = allBars(performance, 16).map(({ turn, soloist }) => turn?.now[0] ?? soloist?.[0] ?? '.');
    expect(turns.join('')).toBe('....TTTTTTddBBBB');
    expect(now(performance, 17_000)).toEqual([null, 'Bea']);
  });

  it('[STAGE-14] taken back it has never been called', () => {
    const performance = perform(
      take(tune, [
        [0, START],
        [1000, order('Tomas', 'Bea')],
        [10_000, NEXT],
        [11_000, { kind: 'takeBack', cue: 'c3' }],
      ]),
    );
    expect(solos(performance, 16)).toBe('....|TTTT|TTTT|TTTT');
  });
});
