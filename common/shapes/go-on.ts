import { cheapFirst, type Step, totalsOf } from './step.ts';
import type { MoveParts } from './voice-path.ts';

/** By choice of a step: the least cost of all that comes after it, and the choice that leads there. */
export interface Continued {
  readonly togo: Float64Array;
  readonly next: Int32Array;
}

/** The groups, cheap choices first within each and from group to group. */
const cheapGroups = ({ groups }: Pick<Step<unknown>, 'groups'>, total: Float64Array): number[][] =>
  groups
    .map((choices) => cheapFirst(choices, total))
    .sort((a, b) => (total[a[0] as number] as number) - (total[b[0] as number] as number));

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
  const total = totalsOf(to, after);
  const groups = cheapGroups(to, total);
  const lowest = Float64Array.from(groups, ([first]) => total[first as number] as number);
  const entry = new Float64Array(groups.length);
  const togo = new Float64Array(from.shapes.length);
  const next = new Int32Array(from.shapes.length);
  let found = (groups[0] as number[])[0] as number;
  for (const alike of from.groups) {
    const some = from.shapes[alike[0] as number] as Shape;
    for (let g = 0; g < entry.length; g++)
      entry[g] = least(some, to.shapes[(groups[g] as number[])[0] as number] as Shape);
    for (const i of alike) {
      const shape = from.shapes[i] as Shape;
      // What was best for a shape like it is a good first guess.
      const guess = to.shapes[found] as Shape;
      let best =
        least(shape, guess) + beyond(shape, guess, Number.POSITIVE_INFINITY) + (total[found] as number);
      for (let g = 0; g < entry.length; g++) {
        if ((lowest[g] as number) >= best) break;
        const step = entry[g] as number;
        if ((lowest[g] as number) + step >= best) continue;
        for (const k of groups[g] as number[]) {
          const sofar = step + (total[k] as number);
          if (sofar >= best) break;
          const sum = sofar + beyond(shape, to.shapes[k] as Shape, best - sofar);
          if (sum < best) {
            best = sum;
            found = k;
          }
        }
      }
      togo[i] = best;
      next[i] = found;
    }
  }
  return { togo, next };
}
