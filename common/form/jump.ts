import type { Problem } from '../chart/problem.ts';
import { hasFine, hasMark, type PlayedBar, type Score } from './played-bar.ts';
import { findLabel, type Jump, type RoadOrder } from './road-line.ts';

/** A pass of a leg with a jump: every pass but the last, and the last, where it leaves for the Coda or the Fine. */
export interface JumpedPass {
  readonly bars: readonly PlayedBar[];
  readonly lastBars: readonly PlayedBar[] | null;
  readonly problems: readonly Problem[];
}

/**
 * Plays a leg that jumps. D.S. and D.C. go back, once in each pass, after the sections named; repeats are then
 * taken once only, as on their last time, unless `with repeats` is written. In the last pass the way leads
 * on to the Coda from the bar with `"to coda"` (after going back: the first such bar; else the last such bar of the pass),
 * or ends with the bar with `"fine"`. That bar itself is played in full.
 * @param earlier the orders of the lines before: a line such as `Head out: D.S. al Coda` that names no section
 *   goes over the sections of the nearest one that holds the signs, else over all sections as written
 */
export const playJump = (
  score: Score,
  order: RoadOrder & { readonly jump: Jump },
  earlier: readonly RoadOrder[],
  line: { readonly id: string; readonly name: string },
): JumpedPass => {
  const { jump } = order;
  const problems: Problem[] = [];
  const report = (kind: string, words: string) => problems.push({ id: line.id, kind, words });
  const isGoal = (bar: PlayedBar) => (jump.to === 'coda' ? hasMark(bar, 'toCoda') : hasFine(bar));

  const first = order.sections.flatMap((section) => score.play(section));
  let again: readonly PlayedBar[] = [];
  if (jump.back) {
    const repeats = jump.withRepeats ? 'all' : 'once';
    const paths = pathsFor(score, order, earlier).map((sections) =>
      sections.flatMap((section) => score.play(section, repeats)),
    );
    const cut = (path: readonly PlayedBar[]) =>
      jump.back === 'beginning' ? path : path.slice(startOf(path, (bar) => hasMark(bar, 'segno')));
    const ways = paths.map(cut).filter((way) => way.length > 0);
    again = ways.find((way) => !jump.to || way.some(isGoal)) ?? ways[0] ?? [];
    if (again.length === 0) {
      report(
        'missing-segno',
        `${line.name} goes back to the segno, but no bar has it. Write "segno" over the bar to go back to.`,
      );
    }
  }
  const bars = [...first, ...again];
  if (!jump.to) return { bars, lastBars: null, problems };

  const from = again.length > 0 ? first.length : 0;
  const goals = bars.flatMap((bar, index) => (index >= from && isGoal(bar) ? [index] : []));
  const goal = again.length > 0 ? goals[0] : goals.at(-1);
  const upToGoal = goal === undefined ? bars : bars.slice(0, goal + 1);
  if (jump.to === 'fine') {
    if (goal === undefined) {
      report(
        'missing-fine',
        `${line.name} ends at the Fine, but no bar has it. Write "fine" over the last bar to be played.`,
      );
    }
    return { bars, lastBars: upToGoal, problems };
  }
  const coda = findLabel('Coda', score.labels);
  if (coda === -1) {
    report('missing-coda', `${line.name} jumps to the Coda, but no section is called Coda.`);
    return { bars, lastBars: null, problems };
  }
  if (goal === undefined) {
    report(
      'missing-to-coda',
      `${line.name} jumps to the Coda, but no bar says where from. Write "to coda" over the bar before the jump.`,
    );
  }
  return { bars, lastBars: [...upToGoal, ...score.play(coda)], problems };
};

const startOf = (path: readonly PlayedBar[], isStart: (bar: PlayedBar) => boolean): number => {
  const start = path.findIndex(isStart);
  return start === -1 ? path.length : start;
};

/** The rows of sections over which going back may lead, the likeliest first. */
const pathsFor = (score: Score, order: RoadOrder, earlier: readonly RoadOrder[]): (readonly number[])[] => {
  const coda = findLabel('Coda', score.labels);
  const asWritten = score.labels.map((_, index) => index).filter((index) => index !== coda);
  if (order.sections.length > 0) return [order.sections, asWritten];
  const before = [...earlier].reverse().filter(({ sections }) => sections.length > 0);
  return [...before.map(({ sections }) => sections), asWritten];
};
