import { goOn } from './go-on.ts';
import { groupCosts } from './group-costs.ts';
import { type DividedCost, NO_WAY } from './path-cost.ts';
import { cheapFirst, type Step, totalsOf } from './step.ts';

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
export function roundPath<Shape>(
  choices: readonly Step<Shape>[],
  divided: DividedCost<Shape>,
): readonly number[] {
  if (choices.length === 0) return [];
  const lengths = choices.map(({ indices }) => indices.length);
  const cut = lengths.indexOf(Math.min(...lengths));
  const steps = [...choices.slice(cut), ...choices.slice(0, cut)];
  const ahead = aheadOf(steps, divided);
  const { order: starts, total: bound } = ahead[0] as Ahead;
  let best: Round = { cost: NO_WAY, path: [] };
  for (const at of starts) {
    if ((bound[at] as number) >= best.cost) break;
    const round = followed(at, steps, divided, ahead);
    if (round.cost < best.cost) best = round;
  }
  for (const at of starts) {
    if ((bound[at] as number) >= best.cost) break;
    best = roundFrom(at, steps, divided, ahead, best);
  }
  const back = steps.length - cut;
  return [...best.path.slice(back), ...best.path.slice(0, back)];
}

/** What lies ahead of the choices of a step, on the cheapest way to any choice of the first step. */
interface Ahead {
  /** By choice, its own cost and all that comes after it. */
  readonly total: Int32Array;
  /** Cheap ones first. */
  readonly order: Int32Array;
  readonly next: Int32Array;
}

function aheadOf<Shape>(steps: readonly Step<Shape>[], divided: DividedCost<Shape>): readonly Ahead[] {
  const between = groupCosts(steps, divided);
  // Home again: its own cost is counted where the round starts.
  let to = steps[0] as Step<Shape>;
  let after: Int32Array = to.own.map((cost) => -cost);
  return steps
    .toReversed()
    .map((from) => {
      const { togo, next } = goOn(from, to, after, divided, between);
      to = from;
      after = togo;
      const total = totalsOf(from, togo);
      return { total, order: cheapFirst(total), next };
    })
    .reverse();
}

/** The round that starts with a choice and takes the way that meets its bound. */
function followed<Shape>(
  start: number,
  steps: readonly Step<Shape>[],
  { move }: DividedCost<Shape>,
  ahead: readonly Ahead[],
): Round {
  const path = [start];
  for (const { next } of ahead.slice(0, -1)) path.push(next[path.at(-1) as number] as number);
  const taken = path.map((choice, step) => (steps[step] as Step<Shape>).shapes[choice] as Shape);
  const cost = path.reduce((sum, choice, step) => {
    const from = taken[step] as Shape;
    const to = taken[(step + 1) % taken.length] as Shape;
    const own = (steps[step] as Step<Shape>).own[choice] as number;
    return sum + own + move(from, to);
  }, 0);
  return { cost, path };
}

/** The cheapest round through one choice of the first step where it is cheaper than `best`, else `best`. */
function roundFrom<Shape>(
  start: number,
  steps: readonly Step<Shape>[],
  { move, parts: { betweenFamilies, betweenGroups, rest } }: DividedCost<Shape>,
  ahead: readonly Ahead[],
  best: Round,
): Round {
  const home = steps[0] as Step<Shape>;
  let reached: readonly number[] = [start];
  let cost = new Int32Array(home.own.length);
  cost[start] = home.own[start] as number;
  const cameFrom: Int32Array[] = [];
  for (let step = 1; step < steps.length; step++) {
    const before = steps[step - 1] as Step<Shape>;
    const here = steps[step] as Step<Shape>;
    const { order, total } = ahead[step] as Ahead;
    const arrived = new Int32Array(here.own.length).fill(NO_WAY);
    const from = new Int32Array(here.own.length);
    const found: number[] = [];
    for (const i of reached) {
      const soFar = cost[i] as number;
      const one = before.shapes[i] as Shape;
      for (const k of order) {
        const mostBefore = best.cost - (total[k] as number);
        if (soFar >= mostBefore) break;
        const known = arrived[k] as number;
        const enough = Math.min(mostBefore, known - (here.own[k] as number)) - soFar;
        const other = here.shapes[k] as Shape;
        const part =
          betweenFamilies(before.familyOf[i] as number, here.familyOf[k] as number) +
          betweenGroups(before.groupOf[i] as number, here.groupOf[k] as number);
        if (part >= enough) continue;
        const sum = soFar + part + rest(one, other);
        const reach = sum + (here.own[k] as number);
        if (sum + (total[k] as number) >= best.cost || reach >= known) continue;
        if (known === NO_WAY) found.push(k);
        arrived[k] = reach;
        from[k] = i;
      }
    }
    // Nothing that starts here is cheaper.
    if (found.length === 0) return best;
    cost = arrived;
    reached = found;
    cameFrom.push(from);
  }
  const last = steps.at(-1) as Step<Shape>;
  const goal = home.shapes[start] as Shape;
  let arrivedFrom: number | undefined;
  let lowest = best.cost;
  for (const i of reached) {
    if ((cost[i] as number) >= lowest) continue;
    const shape = last.shapes[i] as Shape;
    const sum = (cost[i] as number) + move(shape, goal);
    if (sum < lowest) {
      lowest = sum;
      arrivedFrom = i;
    }
  }
  if (arrivedFrom === undefined) return best;
  let at = arrivedFrom;
  const path = cameFrom.toReversed().map((from) => {
    const here = at;
    at = from[at] as number;
    return here;
  });
  return { cost: lowest, path: [at, ...path.reverse()] };
}
