/** What may be taken in one step. Choices are counted from 0; each is a shape of the step's list. */
export interface Step {
  /** By choice, the index of its shape in the list. */
  readonly indices: readonly number[];
  /** By choice, what it costs by itself. */
  readonly own: readonly number[];
  /** Choices that are alike as far as the bound on moves goes; each choice is in one group. */
  readonly groups: readonly (readonly number[])[];
}

/** What moving from a shape of a step to one of the next costs, by their indices, in two parts. */
export interface Moves {
  /** The same for any two shapes of the groups that these two are in. */
  readonly least: (from: number, to: number) => number;
  /** What it costs beyond that; may stop adding up at `enough` and return any number from there on. */
  readonly beyond: (from: number, to: number, enough: number) => number;
}

/** By choice of a step: the least cost of all that comes after it, and the choice that leads there. */
export interface Continued {
  readonly togo: Float64Array<ArrayBuffer>;
  readonly next: Int32Array;
}

/** By choice, what it costs from there to the end. */
export const totalsOf = ({ own }: Step, togo: Float64Array): Float64Array<ArrayBuffer> =>
  Float64Array.from(own, (cost, choice) => cost + (togo[choice] as number));

/** Choices with the cheap ones first; of equal ones the first. */
export const cheapFirst = (choices: readonly number[], total: Float64Array): number[] =>
  [...choices].sort((a, b) => (total[a] as number) - (total[b] as number) || a - b);

/** The groups, cheap choices first within each and from group to group. */
const cheapGroups = ({ groups }: Step, total: Float64Array): number[][] =>
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
export function goOn(from: Step, to: Step, after: Float64Array, { least, beyond }: Moves): Continued {
  const total = totalsOf(to, after);
  const groups = cheapGroups(to, total);
  const lowest = Float64Array.from(groups, ([first]) => total[first as number] as number);
  const entry = new Float64Array(groups.length);
  const togo = new Float64Array(from.indices.length);
  const next = new Int32Array(from.indices.length);
  let found = (groups[0] as number[])[0] as number;
  for (const alike of from.groups) {
    const some = from.indices[alike[0] as number] as number;
    for (let g = 0; g < entry.length; g++)
      entry[g] = least(some, to.indices[(groups[g] as number[])[0] as number] as number);
    for (const i of alike) {
      const index = from.indices[i] as number;
      // What was best for a shape like it is a good first guess.
      const guess = to.indices[found] as number;
      let best =
        least(index, guess) + beyond(index, guess, Number.POSITIVE_INFINITY) + (total[found] as number);
      for (let g = 0; g < entry.length; g++) {
        if ((lowest[g] as number) >= best) break;
        const step = entry[g] as number;
        if ((lowest[g] as number) + step >= best) continue;
        for (const k of groups[g] as number[]) {
          const sofar = step + (total[k] as number);
          if (sofar >= best) break;
          const sum = sofar + beyond(index, to.indices[k] as number, best - sofar);
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
