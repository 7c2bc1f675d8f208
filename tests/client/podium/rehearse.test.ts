import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { barsWords, letterAround, letters } from '../../../client/podium/letters.ts';
import { goalOf, loopCue, tempoPlan, touchBar } from '../../../client/podium/spot-choice.ts';
import { readySpots } from '../../../client/podium/spots.ts';
import { bar, bars, leg, road } from '../../common/stage/support-road.ts';

const aaba = leg(
  'Head',
  1,
  bars('a', 16, { 0: { letter: 'A' }, 4: { letter: 'A' }, 8: { letter: 'B' }, 12: { letter: 'A' } }),
);

describe('spots of a leg', () => {
  it('are the top and the letters; a letter that comes again is numbered', () => {
    expect(letters(aaba).map(({ name }) => name)).toEqual(['top', 'A', 'A 2', 'B', 'A 3']);
  });

  it('while the band plays, the leg that follows is one of them', () => {
    const form = road([aaba, leg('Solos', 'open', aaba.bars)]);
    expect(readySpots(form, aaba, true, null).at(-1)).toEqual({ leg: 'Solos', barIndex: 0, name: 'Solos' });
  });

  it('before the count-in, the pick-up is one, and where the last run was stopped', () => {
    const withPickUp = leg('Head', 1, aaba.bars, { pickUp: bar('p', { pulses: 1, metrePulses: 4 }) });
    const solos = leg('Solos', 'open', aaba.bars);
    const spots = readySpots(road([withPickUp, solos]), withPickUp, false, {
      leg: 'Solos',
      pass: 3,
      barIndex: 6,
      pulse: 2,
    });
    expect(spots[0]).toMatchObject({ name: 'pick-up', barIndex: -1 });
    expect(spots.at(-1)).toEqual({
      leg: 'Solos',
      pass: 3,
      barIndex: 6,
      name: 'where we stopped: Solos, bar 7',
    });
  });

  it('a letter reaches to the next one, and without letters the whole leg is one stretch', () => {
    expect(letterAround(aaba, 10)).toEqual({ leg: 'Head', from: 8, to: 11, name: 'B' });
    expect(letterAround(aaba, 15)).toEqual({ leg: 'Head', from: 12, to: 15, name: 'A 3' });
    expect(letterAround(leg('Vamp', 'vamp', bars('v', 2)), 1)).toEqual({
      leg: 'Vamp',
      from: 0,
      to: 1,
      name: 'Vamp',
    });
  });
});

describe('touching what is looped', () => {
  it('takes two touches in whichever order; a third begins anew, and so does another leg', () => {
    const first = touchBar(null, 'Head', 7);
    expect(barsWords(first)).toBe('bar 8');
    expect(barsWords(touchBar(first, 'Head', 4))).toBe('bars 5–8');
    expect(touchBar(touchBar(first, 'Head', 4), 'Head', 1)).toEqual({ leg: 'Head', from: 1, to: 1 });
    expect(touchBar(first, 'Solos', 2)).toEqual({ leg: 'Solos', from: 2, to: 2 });
  });

  it('goes faster only where there is a goal above the tempo now', () => {
    const spot = { leg: 'Head', from: 4, to: 7 };
    const setUp = { loopCountIn: true, loopStepBpm: 4, loopRounds: 2 };
    expect(loopCue(spot, setUp, 96, 120)).toEqual({
      kind: 'loop',
      ...spot,
      countIn: true,
      stepBpm: 4,
      everyRounds: 2,
      goalBpm: 120,
    });
    expect(loopCue(spot, setUp, 120, 120)).toEqual({ kind: 'loop', ...spot, countIn: true });
    expect(loopCue(spot, { ...setUp, loopStepBpm: 0 }, 96, 120)).not.toHaveProperty('goalBpm');
  });

  it('tells the tempos before they are played', () => {
    expect(tempoPlan(96, 4, 2, 106)).toBe('96, 100, 104, 106: 6 rounds to the goal');
    expect(tempoPlan(80, 4, 1, 120)).toBe('80, 84, 88 … 120: 10 rounds to the goal');
    expect(tempoPlan(108, 4, 2, 108)).toBe('stays at 108');
    expect(tempoPlan(100, 4, 1, 104)).toBe('100, 104: 1 round to the goal');
  });

  it('aims at the written tempo, or the one asked for, and never below the tempo now', () => {
    expect(goalOf(null, 120, 96)).toBe(120);
    expect(goalOf(108, 120, 96)).toBe(108);
    expect(goalOf(null, 66, 69.2)).toBe(69);
    expect(goalOf(66, 120, 69)).toBe(69);
  });

  it('never plans beyond the goal', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 40, max: 200 }),
        fc.integer({ min: 1, max: 20 }),
        fc.integer({ min: 1, max: 8 }),
        fc.integer({ min: 40, max: 240 }),
        (bpm, step, rounds, goal) => {
          const told = tempoPlan(bpm, step, rounds, goal);
          if (goal <= bpm) {
            expect(told).toBe(`stays at ${bpm}`);
            return;
          }
          const tempos = told.split(':')[0]?.match(/\d+/g)?.map(Number) ?? [];
          expect(tempos[0]).toBe(bpm);
          expect(tempos.at(-1)).toBe(goal);
          expect(Math.max(...tempos)).toBe(goal);
        },
      ),
      { numRuns: 200, seed: 5 },
    );
  });
});
