/** What may be taken in one step: the indices of its shapes, and what each costs by itself. */
export interface Step {
  readonly indices: readonly number[];
  readonly own: readonly number[];
}

/** The cost of moving from a shape of a step to a shape of the next one, by their indices. */
export type Move = (from: number, to: number) => number;
/** The moves out of a step; out of the last one they lead to the first. */
export type Moves = (step: number) => Move;

/** By choice of a step: the least cost of all that comes after it, and the choice that leads there. */
export interface Continued {
  readonly togo: Float64Array<ArrayBuffer>;
  readonly next: Int32Array;
}

/** Choices of a step, those that are cheap from here to the end first; `total` is by choice. */
export function cheapFirst(
  step: Step,
  togo: Float64Array,
): { readonly order: Int32Array; readonly total: Float64Array } {
  const total = Float64Array.from(step.own, (own, i) => own + (togo[i] as number));
  const order = Int32Array.from(step.own.keys());
  order.sort((a, b) => (total[a] as number) - (total[b] as number) || a - b);
  return { order, total };
}

/**
 * The best way on from each choice of `from` into `to`, where `after` is the least cost after each choice of `to`:
 * `togo(s) = min over t of move(s, t) + own(t) + after(t)`.
 *
 * The t are tried in rising order of `own(t) + after(t)`. No move is negative, so the first t for which that
 * sum alone reaches the best found ends the search, and nothing cheaper is missed.
 */
export function goOn(from: Step, to: Step, after: Float64Array, move: Move): Continued {
  const { order, total } = cheapFirst(to, after);
  const togo = new Float64Array(from.indices.length);
  const next = new Int32Array(from.indices.length);
  for (let i = 0; i < togo.length; i++) {
    const index = from.indices[i] as number;
    let best = Number.POSITIVE_INFINITY;
    let found = order[0] as number;
    for (const k of order) {
      const rest = total[k] as number;
      if (rest >= best) break;
      const sum = move(index, to.indices[k] as number) + rest;
      if (sum < best) {
        best = sum;
        found = k;
      }
    }
    togo[i] = best;
    next[i] = found;
  }
  return { togo, next };
}
