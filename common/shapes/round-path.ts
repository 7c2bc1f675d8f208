import { type Continued, cheapFirst, goOn, type Moves, type Step, totalsOf } from './go-on.ts';

interface Round {
  readonly cost: number;
  readonly path: readonly number[];
}

/**
 * The cheapest way round: the choice to take in each step, the move from the last to the first counted.
 *
 * The round is cut at its step of fewest choices. Letting the last move lead to any choice of the cut gives, for
 * each choice, a bound its rounds cannot go below; where the way that meets the bound comes home by itself, the bound
 * is the cost. The choices whose bound is below the best round so found are then solved one by one, keeping only what
 * can still go below it.
 */
export function roundPath(choices: readonly Step[], moves: readonly Moves[]): readonly number[] {
  if (choices.length === 0) return [];
  const lengths = choices.map(({ indices }) => indices.length);
  const cut = lengths.indexOf(Math.min(...lengths));
  const turned = <Item>(list: readonly Item[]): Item[] => [...list.slice(cut), ...list.slice(0, cut)];
  const steps = turned(choices);
  const move = turned(moves);
  const first = steps[0] as Step;
  const bounds = boundsOf(steps, move);
  const { order: starts, total: bound } = aheadOf(first, bounds[0] as Continued);
  let best: Round = { cost: Number.POSITIVE_INFINITY, path: [] };
  for (const at of starts) {
    if ((bound[at] as number) >= best.cost) break;
    const round = followed(at, steps, move, bounds);
    if (round.cost < best.cost) best = round;
  }
  const ahead = steps.map((step, i) => aheadOf(step, bounds[i] as Continued));
  for (const at of starts) {
    if ((bound[at] as number) >= best.cost) break;
    best = roundFrom(at, steps, move, ahead, best);
  }
  const back = steps.length - cut;
  return [...best.path.slice(back), ...best.path.slice(0, back)];
}

/** By step, the least cost from there to any choice of the first step. */
function boundsOf(steps: readonly Step[], move: readonly Moves[]): readonly Continued[] {
  const first = steps[0] as Step;
  let to: Step = { ...first, own: first.own.map(() => 0) };
  let after = new Float64Array(first.own.length);
  const bounds: Continued[] = [];
  for (let step = steps.length - 1; step >= 0; step--) {
    const from = steps[step] as Step;
    const continued = goOn(from, to, after, move[step] as Moves);
    bounds.unshift(continued);
    after = continued.togo;
    to = from;
  }
  return bounds;
}

/** The round that starts with a choice and takes the way that meets its bound. */
function followed(
  start: number,
  steps: readonly Step[],
  move: readonly Moves[],
  bounds: readonly Continued[],
): Round {
  const path = [start];
  while (path.length < steps.length)
    path.push((bounds[path.length - 1] as Continued).next[path.at(-1) as number] as number);
  const cost = path.reduce((sum, choice, step) => {
    const { indices, own } = steps[step] as Step;
    const nextIndices = (steps[(step + 1) % steps.length] as Step).indices;
    const next = nextIndices[path[(step + 1) % steps.length] as number] as number;
    return sum + (own[choice] as number) + wholeMove(move[step] as Moves, indices[choice] as number, next);
  }, 0);
  return { cost, path };
}

const wholeMove = ({ least, beyond }: Moves, from: number, to: number): number =>
  least(from, to) + beyond(from, to, Number.POSITIVE_INFINITY);

/** What lies ahead of the choices of a step, by its bounds. */
interface Ahead {
  /** Cheap ones first. */
  readonly order: readonly number[];
  readonly total: Float64Array;
}

const aheadOf = (step: Step, { togo }: Continued): Ahead => {
  const total = totalsOf(step, togo);
  return { order: cheapFirst([...step.own.keys()], total), total };
};

/** The cheapest round through one choice of the first step where it is cheaper than `best`, else `best`. */
function roundFrom(
  start: number,
  steps: readonly Step[],
  move: readonly Moves[],
  ahead: readonly Ahead[],
  best: Round,
): Round {
  const first = steps[0] as Step;
  let cost = new Float64Array(first.own.length).fill(Number.POSITIVE_INFINITY);
  cost[start] = first.own[start] as number;
  const cameFrom: Int32Array[] = [];
  for (let step = 1; step < steps.length; step++) {
    const before = steps[step - 1] as Step;
    const here = steps[step] as Step;
    const { order, total } = ahead[step] as Ahead;
    const reached = new Float64Array(here.own.length).fill(Number.POSITIVE_INFINITY);
    const from = new Int32Array(here.own.length);
    const { least, beyond } = move[step - 1] as Moves;
    for (let i = 0; i < cost.length; i++) {
      const soFar = cost[i] as number;
      if (soFar === Number.POSITIVE_INFINITY) continue;
      for (const k of order) {
        if (soFar + (total[k] as number) >= best.cost) break;
        const enough =
          Math.min(best.cost - (total[k] as number), (reached[k] as number) - (here.own[k] as number)) -
          soFar;
        const index = before.indices[i] as number;
        const there = here.indices[k] as number;
        const part = least(index, there);
        if (part >= enough) continue;
        const sum = soFar + part + beyond(index, there, enough - part);
        if (
          sum + (total[k] as number) >= best.cost ||
          sum + (here.own[k] as number) >= (reached[k] as number)
        )
          continue;
        reached[k] = sum + (here.own[k] as number);
        from[k] = i;
      }
    }
    cost = reached;
    cameFrom.push(from);
  }
  const last = steps.at(-1) as Step;
  const home = move.at(-1) as Moves;
  let found: number | undefined;
  let least = best.cost;
  for (let i = 0; i < cost.length; i++) {
    if ((cost[i] as number) >= least) continue;
    const sum =
      (cost[i] as number) + wholeMove(home, last.indices[i] as number, first.indices[start] as number);
    if (sum < least) {
      least = sum;
      found = i;
    }
  }
  if (found === undefined) return best;
  let at = found;
  const path = cameFrom.toReversed().map((from) => {
    const here = at;
    at = from[at] as number;
    return here;
  });
  return { cost: least, path: [at, ...path.reverse()] };
}
