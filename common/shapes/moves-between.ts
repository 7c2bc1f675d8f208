import type { Moves } from './go-on.ts';

type Move = Moves['move'];

/** Marks a move that has not been asked for yet; moves are never negative. */
const UNKNOWN = -1;

/**
 * The moves out of each step. Where the same two lists (array objects) follow each other more than once, each move
 * is computed when it is first asked for and kept.
 */
export function movesBetween<Shape>(
  steps: readonly (readonly Shape[])[],
  move: (from: Shape, to: Shape) => number,
  atLeast: (from: Shape, to: Shape) => number,
): readonly Moves[] {
  type Shapes = readonly Shape[];
  const times = new Map<Shapes, Map<Shapes, number>>();
  const kept = new Map<Shapes, Map<Shapes, Move>>();
  const pairs = steps.map((from, step) => [from, steps[(step + 1) % steps.length] as Shapes] as const);
  for (const [from, to] of pairs) {
    const row = times.get(from) ?? new Map<Shapes, number>();
    times.set(from, row.set(to, (row.get(to) ?? 0) + 1));
  }
  return pairs.map(([from, to]) => {
    const row = kept.get(from) ?? new Map<Shapes, Move>();
    const plain: Move = (i, k) => move(from[i] as Shape, to[k] as Shape);
    const repeated = (times.get(from)?.get(to) ?? 0) > 1;
    const found = row.get(to) ?? (repeated ? keeping(plain, from.length, to.length) : plain);
    kept.set(from, row.set(to, found));
    return { move: found, least: (i, k) => atLeast(from[i] as Shape, to[k] as Shape) };
  });
}

function keeping(move: Move, rows: number, columns: number): Move {
  const table = new Float64Array(rows * columns).fill(UNKNOWN);
  return (i, k) => {
    const at = i * columns + k;
    const known = table[at] as number;
    if (known !== UNKNOWN) return known;
    const fresh = move(i, k);
    table[at] = fresh;
    return fresh;
  };
}
