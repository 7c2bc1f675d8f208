import { describe, expect, it } from 'vitest';
import type { Road } from '../../../common/form/road.ts';
import { roadAt } from '../../../common/stage/in-force.ts';
import { type Performance, perform } from '../../../common/stage/perform.ts';
import { followChart, isArrangementBack } from '../../../common/stage/taken-arrangement.ts';
import { play } from './support-read.ts';
import { type Calls, leg, bars as make, road } from './support-road.ts';

/** Two bars of 4/4 at 120: a pass lasts 4,000 ms, from 600 on. */
const tune = (bars: number, name = 'Solos'): Road =>
  road([leg(name, 'open', make('a', bars)), leg('Out', 1, make('o', 2))], { countBars: 0 });
const TAKEN: Calls[number] = [1000, { kind: 'adopt', road: tune(3) }];

const follow = (performance: Performance, written: Road | null, atMs: number, isUnfinished = false) => {
  let id = 0;
  return followChart(
    performance,
    { road: written, isUnfinished },
    () => {
      id += 1;
      return `n${id}`;
    },
    atMs,
  );
};
const kinds = (called: ReturnType<typeof follow>) => called.map(({ cue: { kind } }) => kind);
const taking = (before: Performance, called: ReturnType<typeof follow>): Performance =>
  perform({ ...before.take, cues: [...before.take.cues, ...called] }, before);
const soloBars = (performance: Performance, atMs: number) => roadAt(performance, atMs).legs[0]?.bars.length;

describe('An arrangement that was taken, and a chart that changes before it lands', () => {
  it('[STAGE-83] is left alone where nobody took one, or it is as it was taken', () => {
    expect(follow(play(tune(2)), tune(3), 1500)).toEqual([]);
    expect(follow(play(tune(2), TAKEN), tune(3), 1500)).toEqual([]);
    expect(follow(play(tune(2), TAKEN), tune(4), 5000)).toEqual([]);
  });

  it('[STAGE-83] gives way to the new one, at the same line and in the same name', () => {
    const { take } = play(tune(2), TAKEN);
    const mine = { ...take, cues: take.cues.map((called) => ({ ...called, by: 'ines' })) };
    const before = perform(mine);
    const called = follow(before, tune(5), 1500);
    expect(called).toMatchObject([
      { cue: { kind: 'takeBack', cue: 'c2' } },
      { cue: { kind: 'adopt' }, by: 'ines' },
    ]);
    expect(called[0]).not.toHaveProperty('by');
    expect(soloBars(taking(before, called), 4599)).toBe(2);
    expect(soloBars(taking(before, called), 4600)).toBe(5);
  });

  it('[STAGE-83] is only taken back where the new one is unfinished, lacks the leg or is empty', () => {
    const before = play(tune(2), TAKEN);
    for (const called of [
      follow(before, tune(5), 1500, true),
      follow(before, tune(5, 'Other'), 1500),
      follow(before, null, 1500),
    ]) {
      expect(kinds(called)).toEqual(['takeBack']);
      expect(soloBars(taking(before, called), 9000)).toBe(2);
    }
  });

  it('[STAGE-83] is taken back where the chart is again as it is played, however often it was taken', () => {
    const before = play(tune(2), TAKEN, [1200, { kind: 'adopt', road: tune(4) }]);
    const called = follow(before, tune(2), 1500);
    expect(kinds(called)).toEqual(['takeBack', 'takeBack']);
    expect(soloBars(taking(before, called), 9000)).toBe(2);
  });

  it('[STAGE-83] stays where the new one would come too late for that line, but can be taken back to the last', () => {
    const before = play(tune(2), TAKEN);
    expect(follow(before, tune(5), 4300)).toEqual([]);
    expect(kinds(follow(before, tune(2), 4590))).toEqual(['takeBack']);
  });

  it('[STAGE-83] is told as taken back until something else is called, for 20 s', () => {
    const before = play(tune(2), TAKEN);
    expect(isArrangementBack(before, 1500)).toBe(false);
    const back = taking(before, follow(before, tune(2), 1500));
    expect(isArrangementBack(back, 1600)).toBe(true);
    expect(isArrangementBack(back, 21_600)).toBe(false);
    const tapped = [{ id: 'tap', cue: { kind: 'tap', tappedAtMs: 1700 }, calledAtMs: 1700 }] as const;
    expect(isArrangementBack(taking(back, tapped), 1800)).toBe(true);
    const called = [{ id: 'x', cue: { kind: 'lastChorus' }, calledAtMs: 1700 }] as const;
    expect(isArrangementBack(taking(back, called), 1800)).toBe(false);
    const refreshed = taking(before, follow(before, tune(5), 1500));
    expect(isArrangementBack(refreshed, 1600)).toBe(false);
    const byHand = play(tune(2), TAKEN, [1200, { kind: 'takeBack', cue: 'c2' }]).take;
    const named = { ...byHand, cues: byHand.cues.map((one) => ({ ...one, by: 'ines' })) };
    expect(isArrangementBack(perform(named), 1300)).toBe(false);
  });
});
