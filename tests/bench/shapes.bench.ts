import { GUITAR } from '../../common/shapes/fretboard/fret-instrument.ts';
import { SHAPE_KINDS, type ShapeKind } from '../../common/shapes/fretboard/fret-shape.ts';
import { type Grip, gripOf } from '../../common/shapes/fretboard/grip.ts';
import { MOVEMENT } from '../../common/shapes/fretboard/movement.ts';
import { shapesOf } from '../../common/shapes/fretboard/shapes-of.ts';
import { SEMITONE_COST } from '../../common/shapes/path-cost.ts';
import { voicePath } from '../../common/shapes/voice-path.ts';
import { readChordSymbol } from '../../common/theory/chord-symbol.ts';
import type { Print } from './main.ts';

const GOAL_MS = 50;
const RUNS = 15;

/** Sixty-four chords through several keys, thirty-two of them different. */
const FORM = `Cmaj7 C#dim7 Dm7 D#dim7 Em7 Am7 Dm7 G7 Gm7 C7 Fmaj7 Bb7 Em7b5 A7b9 Dm7 G7
  Cm7 F7 Bbmaj7 Ebmaj7 Am7b5 D7b9 Gm7 G7 Cm7 F7 Dm7b5 G7b9 Cm7 F7 Bbmaj7 Bb7
  Ebmaj7 Ab7 Bbmaj7 G7 C7 F7 Bbmaj7 Bm7 E7 Amaj7 Am7 D7 Gmaj7 Gm7 C7 Fmaj7
  Fm7 Bb7 Ebmaj7 Ebm7 Ab7 Dbmaj7 Dm7 G7 Cmaj7 Am7 Dm7 G7 Em7 A7 Dm7 G7`.split(/\s+/);

/** Of the processor's time, so that a busy machine counts for little. */
const medianOf = (work: () => unknown): number => {
  const times = Array.from({ length: RUNS }, () => {
    const from = process.cpuUsage();
    work();
    return process.cpuUsage(from).user / 1000;
  });
  return times.sort((a, b) => a - b)[RUNS >> 1] ?? Number.NaN;
};

const { own, move } = MOVEMENT;
const inUnits = (cost: number): string => (cost / SEMITONE_COST).toFixed(3);
type Steps = readonly (readonly Grip[])[];

/** The plain way: each choice of a step against each of the next. The cost of the best path. */
const plainCost = (steps: Steps): number => {
  let before: readonly number[] = [];
  steps.forEach((choices, step) => {
    const earlier = steps[step - 1];
    before = choices.map((to) => {
      if (earlier === undefined) return own(to);
      let best = Number.POSITIVE_INFINITY;
      earlier.forEach((from, i) => {
        best = Math.min(best, (before[i] ?? 0) + move(from, to));
      });
      return best + own(to);
    });
  });
  return Math.min(...before);
};

const costOf = (steps: Steps, path: readonly number[]): number => {
  const taken = path.map((index, step) => steps[step]?.[index] as Grip);
  return taken.reduce((sum, shape, i) => {
    const next = taken[i + 1];
    return sum + own(shape) + (next === undefined ? 0 : move(shape, next));
  }, 0);
};

/**
 * How long the path through a form of 64 chords takes, over all shapes of the guitar and over some kinds, against
 * the same dynamic programming without bounds in the same run: median of processor time.
 */
export const run = (print: Print): void => {
  const sets: readonly (readonly [string, readonly ShapeKind[]])[] = [
    ['all shapes', SHAPE_KINDS],
    ['shells, drop 2, drop 3, rootless, triads', ['shell', 'drop 2', 'drop 3', 'rootless', 'triad']],
    ['shells', ['shell']],
  ];
  for (const [name, kinds] of sets) {
    const from = performance.now();
    const gripsOf = new Map(
      [...new Set(FORM)].map((text) => {
        const symbol = readChordSymbol(text);
        if (symbol === null) throw new Error(`no chord: ${text}`);
        return [text, shapesOf(symbol, GUITAR, { kinds }).map((shape) => gripOf(shape, GUITAR))] as const;
      }),
    );
    const foundMs = performance.now() - from;
    const steps = FORM.map((text) => gripsOf.get(text) ?? []);
    const sizes = steps.map((list) => list.length).sort((a, b) => a - b);
    const openMs = medianOf(() => voicePath(steps, MOVEMENT));
    const roundMs = medianOf(() => voicePath(steps, MOVEMENT, { closed: true }));
    const began = process.cpuUsage();
    const plain = plainCost(steps);
    const plainMs = process.cpuUsage(began).user / 1000;
    const ours = costOf(steps, voicePath(steps, MOVEMENT));
    print(
      `${name}: ${steps.length} chords of ${sizes[0]} to ${sizes.at(-1)} shapes (median ${sizes[32]}): ` +
        `path ${openMs.toFixed(1)} ms, going round ${roundMs.toFixed(1)} ms; ` +
        `plain dynamic programming ${plainMs.toFixed(0)} ms, ratio ${(plainMs / openMs).toFixed(1)}`,
    );
    print(
      `  cost ${inUnits(ours)}, plain ${inUnits(plain)}; finding the shapes of ${gripsOf.size} chords ${foundMs.toFixed(0)} ms`,
    );
    if (kinds === SHAPE_KINDS) print(`  goal: ${GOAL_MS} ms ${openMs <= GOAL_MS ? '(met)' : '(MISSED)'}`);
  }
};
