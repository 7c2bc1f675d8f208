import type { MoveParts } from './path-cost.ts';
import { cheapFirst, type Step, totalsOf } from './step.ts';

/** By choice of a step: the least cost of all that comes after it, and the choice that leads there. */
export interface Continued {
  readonly togo: Float64Array;
  readonly next: Int32Array;
}

/**
 * Choices of a step group after group, the groups with the lowest total first and the low ones first within each.
 * Lists go by that order, so that a search runs straight through them.
 */
interface Targets<Shape> {
  readonly choices: readonly number[];
  readonly shapes: readonly Shape[];
  readonly total: Float64Array;
  /** By group, where it begins; then the end of the last. */
  readonly begins: Int32Array;
}

function targetsOf<Shape>({ shapes, groups }: Step<Shape>, total: Float64Array): Targets<Shape> {
  const ordered = groups
    .map((choices) => cheapFirst(choices, total))
    .sort((a, b) => (total[a[0] as number] as number) - (total[b[0] as number] as number));
  const begins = new Int32Array(ordered.length + 1);
  ordered.forEach(({ length }, group) => {
    begins[group + 1] = (begins[group] as number) + length;
  });
  const choices = ordered.flat();
  const sorted = new Float64Array(choices.length);
  choices.forEach((choice, at) => {
    sorted[at] = total[choice] as number;
  });
  return { choices, shapes: choices.map((choice) => shapes[choice] as Shape), total: sorted, begins };
}

/**
 * The best way on from each choice of `from` into `to`, where `after` is the least cost after each choice of `to`:
 * `togo(s) = min over t of move(s, t) + own(t) + after(t)`.
 *
 * The t are tried group by group in rising order of `own(t) + after(t)`, the lowest of each group first. No move is
 * negative, so the first group whose lowest sum alone reaches the best found ends the search; a group is left out
 * where that sum and the least move into it reach the best found. Nothing cheaper is missed.
 */
export function goOn<Shape>(
  from: Step<Shape>,
  to: Step<Shape>,
  after: Float64Array,
  { least, beyond }: MoveParts<Shape>,
): Continued {
  const { choices, shapes, total, begins } = targetsOf(to, totalsOf(to, after));
  const groupCount = begins.length - 1;
  const entry = new Float64Array(groupCount);
  const togo = new Float64Array(from.shapes.length);
  const next = new Int32Array(from.shapes.length);
  let found = 0;
  for (const alike of from.groups) {
    const some = from.shapes[alike[0] as number] as Shape;
    for (let group = 0; group < groupCount; group++)
      entry[group] = least(some, shapes[begins[group] as number] as Shape);
    for (const choice of alike) {
      const shape = from.shapes[choice] as Shape;
      // What was best for a shape like it is a good first guess.
      const guess = shapes[found] as Shape;
      let best =
        least(shape, guess) + beyond(shape, guess, Number.POSITIVE_INFINITY) + (total[found] as number);
      for (let group = 0; group < groupCount; group++) {
        const begin = begins[group] as number;
        const lowest = total[begin] as number;
        if (lowest >= best) break;
        const step = entry[group] as number;
        if (lowest + step >= best) continue;
        const end = begins[group + 1] as number;
        for (let at = begin; at < end; at++) {
          const sofar = step + (total[at] as number);
          if (sofar >= best) break;
          const sum = sofar + beyond(shape, shapes[at] as Shape, best - sofar);
          if (sum < best) {
            best = sum;
            found = at;
          }
        }
      }
      togo[choice] = best;
      next[choice] = choices[found] as number;
    }
  }
  return { togo, next };
}
