import { describe, expect, it } from 'vitest';
import { announced } from '../../../common/stage/announce.ts';
import type { Cue } from '../../../common/stage/cue.ts';
import { judge } from '../../../common/stage/judge.ts';
import type { Performance } from '../../../common/stage/perform.ts';
import { allBars, play, told } from './support-read.ts';
import { bars, leg, road } from './support-road.ts';

const trade = (n: number, ...players: string[]): Cue => ({ kind: 'trade', bars: n, players });
const LAST: Cue = { kind: 'lastChorus' };

/** Initials of whose turn each bar is; '.' where nobody's is, '|' at a top. */
const turns = (performance: Performance, most: number) =>
  allBars(performance, most)
    .map(({ turn, place, index }) => `${index > 0 && place.barIndex === 0 ? '|' : ''}${turn?.now[0] ?? '.'}`)
    .join('');
const tune = (n: number, more = {}) =>
  road(
    [leg('Head', 1, bars('a', n)), leg('Solos', 'open', bars('a', n), more), leg('Out', 1, bars('a', n))],
    {
      countBars: 0,
    },
  );

describe('Trading', () => {
  it('[STAGE-56] takes turns from the next pass on: fours over twelve bars', () => {
    const performance = play(tune(12), [30_000, trade(4, 'Bea', 'drums')]);
    // The Solos begin at 24,600. Three turns a pass: Bea begins the first pass, the drums the second.
    expect(turns(performance, 48)).toBe('............|............|BBBBddddBBBB|ddddBBBBdddd');
    expect(allBars(performance, 26).at(-1)?.turn).toEqual({ now: 'Bea', next: 'drums', barsLeft: 2 });
  });

  it('[STAGE-56] keeps the form where it does not divide: fours over ten bars fall 4 + 4 + 2', () => {
    const performance = play(tune(10), [1000, trade(4, 'Bea', 'Tomas', 'drums')]);
    expect(turns(performance, 40)).toBe('..........|BBBBTTTTdd|BBBBTTTTdd|BBBBTTTTdd');
    const two = play(tune(10), [1000, trade(4, 'Bea', 'drums')]);
    expect(turns(two, 40)).toBe('..........|BBBBddddBB|ddddBBBBdd|BBBBddddBB');
    const [first] = announced(two, 1600);
    expect(`${first?.family}: ${first?.name} · ${first?.detail}`).toBe(
      'move: Trade fours · Bea, drums · 4 + 4 + 2',
    );
    // Turn 3 of the pass has two bars; the next top is the drums'.
    expect(
      allBars(two, 20)
        .slice(17)
        .map(({ turn }) => turn),
    ).toEqual([
      { now: 'drums', next: 'Bea', barsLeft: 0 },
      { now: 'Bea', next: 'drums', barsLeft: 1 },
      { now: 'Bea', next: 'drums', barsLeft: 0 },
    ]);
  });

  it('[STAGE-56] trades twos, and turns longer than the form', () => {
    expect(turns(play(tune(4), [1000, trade(2, 'Bea', 'drums')]), 12)).toBe('....|BBdd|BBdd');
    expect(turns(play(tune(4), [1000, trade(8, 'Bea', 'drums')]), 12)).toBe('....|BBBB|dddd');
    expect(announced(play(tune(4), [1000, trade(3, 'Bea', 'drums')]), 1600)).toMatchObject([
      { name: 'Trade 3 bars each', detail: 'Bea, drums · 3 + 1' },
    ]);
  });

  it('[STAGE-58] ends with its leg, where nobody is next', () => {
    const performance = play(tune(4), [9000, trade(4, 'Bea', 'drums')], [18_000, LAST]);
    expect(told(performance)).toHaveLength(4 + 8 + 4 + 1);
    expect(turns(performance, 16)).toBe('....|....|BBBB|....');
    expect(allBars(performance, 12).at(-1)?.turn).toEqual({ now: 'Bea', next: '', barsLeft: 0 });
    const tagged = play(
      tune(4),
      [9000, trade(4, 'Bea', 'drums')],
      [18_000, LAST],
      [25_700, { kind: 'tag', bars: 2, times: 2 }],
    );
    expect(turns(tagged, 18)).toBe('....|....|BBBB|....|..');
  });

  it('[STAGE-56] [STAGE-58] lands in the leg that follows, and another trade takes its place', () => {
    const performance = play(tune(4), [1000, trade(2, 'Bea', 'drums')], [10_000, trade(1, 'Tomas', 'Ines')]);
    expect(turns(performance, 16)).toBe('....|BBdd|TITI|TITI');
  });

  it('[STAGE-56] keeps its turns through a go to within the leg, and a break', () => {
    const performance = play(
      tune(8),
      [1000, trade(4, 'Bea', 'drums')],
      [21_000, { kind: 'goTo', leg: 'Solos', barIndex: 0 }],
      [25_000, { kind: 'break', bars: 2 }],
    );
    expect(turns(performance, 24)).toBe('........|BBBB|BBBBdddd|BBBB');
    expect(
      allBars(performance, 18)
        .slice(16)
        .map(({ out, turn }) => [out, turn?.now]),
    ).toEqual([
      ['hit', 'drums'],
      ['out', 'drums'],
    ]);
  });

  it('[STAGE-56] is refused in plain words without two players or a whole bar', () => {
    const performance = play(tune(4));
    expect(judge(performance, trade(4, 'Bea'), 1000)).toMatchObject({ why: 'onePlayer' });
    expect(judge(performance, trade(4), 1000)).toMatchObject({ why: 'noPlayers' });
    expect(judge(performance, trade(4, 'Bea', ' '), 1000)).toMatchObject({ why: 'badPlayers' });
    expect(judge(performance, trade(1.5, 'Bea', 'drums'), 1000)).toMatchObject({ why: 'badTrade' });
  });
});

describe('A leg that is traded by the road map', () => {
  const fours = (n: number) =>
    road(
      [
        leg('Head', 1, bars('a', n)),
        leg('Fours', 2, bars('a', n), { trade: 4 }),
        leg('Out', 1, bars('a', n)),
      ],
      {
        countBars: 0,
      },
    );
  const order = (...players: string[]): Cue => ({ kind: 'soloOrder', players });

  it('[STAGE-57] [STAGE-58] goes by soloist and drums, or by the solo order with the drums between', () => {
    expect(turns(play(fours(8)), 32)).toBe('........|ssssdddd|ssssdddd|........');
    const named = play(fours(10), [1000, order('Tomas', 'Bea')]);
    expect(turns(named, 40)).toBe('..........|TTTTddddBB|ddddTTTTdd|..........');
    expect(turns(play(fours(8), [1000, order('Tomas', 'drums', 'Bea')]), 24)).toBe(
      '........|TTTTdddd|BBBBTTTT',
    );
    expect(turns(play(fours(8), [1000, order('drums')]), 16)).toBe('........|ssssdddd');
  });

  it('[STAGE-57] is traded where one comes in by a go to, and by an order that is named on the way', () => {
    const performance = play(
      fours(8),
      [1000, { kind: 'goTo', leg: 'Fours', barIndex: 2 }],
      [11_000, order('Tomas')],
    );
    expect(turns(performance, 10)).toBe('....ssdddd');
    expect(turns(play(fours(8), [17_000, order('Tomas')]), 16)).toBe('........|sTTTdddd');
  });

  it('[STAGE-68] is announced like a trade that is called', () => {
    const told = (performance: Performance) =>
      announced(performance, 13_000).map((one) => `${one.family}: ${one.name} · ${one.detail}`);
    expect(told(play(fours(8)))).toEqual(['move: Trade fours · soloist, then drums']);
    expect(told(play(fours(10), [1000, order('Tomas', 'Bea')]))).toEqual([
      'move: Trade fours · Tomas, then drums · 4 + 4 + 2',
    ]);
  });
});
