import { describe, expect, it } from 'vitest';
import { errorAfterChange, meanError, tillcue } from '../../bench/follow-score.ts';
import { DRUMMERS, drum } from '../../bench/simulated-drummers.ts';

/** Others than those of the bench. */
const SEEDS = [11, 12, 13, 14, 15, 16];
const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

const boards = (name: string, every: number) => {
  const drummer = DRUMMERS.find((one) => one.name === name);
  if (!drummer) throw new Error(`no drummer called ${name}`);
  return SEEDS.map((seed) => {
    const drummed = drum(drummer, every, seed);
    return { drummed, board: tillcue(drummed, every), changesAt: drummer.changesAt ?? 0 };
  });
};

const errorOf = (name: string, every: number): number =>
  mean(boards(name, every).map(({ drummed, board }) => meanError(drummed, board)));

const errorAfter = (name: string, every: number, taps: number): number =>
  mean(boards(name, every).map((b) => errorAfterChange(b.drummed, b.board, b.changesAt, taps)));

describe('The goals of following, for drummers made by a model', () => {
  it('[STAGE-75] is off by 15 ms at most where every beat of a steady tempo is tapped', () => {
    expect(errorOf('constant', 1)).toBeLessThan(12);
  });

  it('[STAGE-75] is off by 30 ms at most where the tempo drifts', () => {
    expect(errorOf('drifting ±0.1 % a beat', 1)).toBeLessThan(15);
    expect(errorOf('speeding up 10 % over 32 bars', 1)).toBeLessThan(18);
  });

  it('[STAGE-75] is off by 45 ms at most where only downbeats are tapped and the tempo drifts', () => {
    expect(errorOf('drifting ±0.1 % a beat', 4)).toBeLessThan(25);
    expect(errorOf('speeding up 10 % over 32 bars', 4)).toBeLessThan(32);
  });

  it.each(['suddenly 8 % faster', 'suddenly 8 % slower'])(
    '[STAGE-75] is back under 40 ms within eight taps, or six downbeats: %s',
    (name) => {
      expect(errorAfter(name, 1, 8)).toBeLessThan(30);
      expect(errorAfter(name, 4, 6)).toBeLessThan(30);
    },
  );
});
