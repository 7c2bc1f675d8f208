import { type Board, errorAfterChange, meanError, medianOfIntervals, tillcue } from './follow-score.ts';
import type { Print } from './main.ts';
import { DRUMMERS, type Drummer, drum } from './simulated-drummers.ts';

/** Chosen beforehand; the gains were found on others. */
const SEEDS = Array.from({ length: 20 }, (_, i) => 1001 + i);
const BOARDS: readonly (readonly [string, Board])[] = [
  ['tillcue', tillcue],
  ['median of intervals', medianOfIntervals(false)],
  ['median, beat set to tap', medianOfIntervals(true)],
];
const TAPPED = [
  { every: 1, words: 'every beat', taps: [1, 2, 3, 4, 5, 6, 8, 12], within: 8 },
  { every: 4, words: 'every downbeat', taps: [1, 2, 3, 4, 5, 6, 8], within: 6 },
] as const;
const BACK_UNDER_MS = 40;

const goalMs = ({ name }: Drummer, every: number): number => {
  if (every > 1) return 45;
  return name === 'constant' ? 15 : 30;
};

/** Scores the board that follows taps against the drummer's true beats. */
export const run = (print: Print): void => {
  print(`${SEEDS.length} seeds, 80–180 a minute, 48 bars of four; ms off the drummer’s true beats`);
  for (const tapped of TAPPED) {
    for (const drummer of DRUMMERS) {
      print('');
      print(`${drummer.name}, tapping ${tapped.words}`);
      if (drummer.changesAt === undefined) printError(print, drummer, tapped.every);
      else printChange(print, { ...drummer, changesAt: drummer.changesAt }, tapped);
    }
  }
};

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

const verdict = (met: boolean): string => (met ? '(met)' : '(MISSED)');

const printError = (print: Print, drummer: Drummer, every: number): void => {
  const goal = goalMs(drummer, every);
  let ours: readonly number[] = [];
  for (const [name, board] of BOARDS) {
    const means = SEEDS.map((seed) => {
      const drummed = drum(drummer, every, seed);
      return meanError(drummed, board(drummed, every));
    });
    if (ours.length === 0) ours = means;
    print(
      `  ${name.padEnd(24)} mean ${mean(means).toFixed(1).padStart(7)}  worst ${Math.max(...means)
        .toFixed(1)
        .padStart(7)}` + `  × ${(mean(means) / mean(ours)).toFixed(1)}`,
    );
  }
  print(
    `  goal: mean ≤ ${goal} ${verdict(mean(ours) <= goal)}, ${ours.filter((one) => one > goal).length} seeds above it`,
  );
};

const printChange = (
  print: Print,
  drummer: Drummer & { readonly changesAt: number },
  { every, taps, within }: (typeof TAPPED)[number],
): void => {
  print(`  four beats after so many taps, mean (worst):${taps.map((n) => `${n}`.padStart(12)).join('')}`);
  let ours: readonly number[] = [];
  for (const [name, board] of BOARDS) {
    const runs = SEEDS.map((seed) => {
      const drummed = drum(drummer, every, seed);
      const beats = board(drummed, every);
      return (n: number) => errorAfterChange(drummed, beats, drummer.changesAt, n);
    });
    const cells = taps.map((n) => {
      const after = runs.map((error) => error(n));
      return `${mean(after).toFixed(0)} (${Math.max(...after).toFixed(0)})`.padStart(12);
    });
    if (ours.length === 0) ours = runs.map((error) => error(within));
    print(`  ${name.padEnd(42)}${cells.join('')}`);
  }
  print(
    `  goal: under ${BACK_UNDER_MS} within ${within} taps ${verdict(mean(ours) < BACK_UNDER_MS)}, ${ours.filter((one) => one >= BACK_UNDER_MS).length} seeds not yet`,
  );
};
