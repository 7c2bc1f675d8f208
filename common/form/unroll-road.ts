import type { BarMusic } from '../chart/bar-music.ts';
import type { Chart } from '../chart/chart.ts';
import type { Problem } from '../chart/problem.ts';
import { defaultRoad, type LegOrder } from './default-road.ts';
import { playJump } from './jump.ts';
import { hasMark, type PlayedBar, roadBar, roadBars, type Score, scoreOf } from './played-bar.ts';
import type { Leg, RoadBar, RoadMark } from './road.ts';
import { type RoadOrder, readRoadLine } from './road-line.ts';
import { MOST_BARS } from './unroll-section.ts';

/**
 * The legs of a chart, unrolled, with what is wrong in its road map. Legs without bars are left out; where
 * nothing remains, or no road map is written, the default one is played.
 * @param music what each bar's text means, by bar id (`readBars`)
 */
export const unrollRoad = (
  chart: Chart,
  music: ReadonlyMap<string, BarMusic>,
): { readonly legs: Leg[]; readonly problems: Problem[] } => {
  const score = scoreOf(chart, music);
  const problems: Problem[] = [];
  const written = chart.road.map((line): LegOrder => {
    const read = readRoadLine(line, score.labels);
    problems.push(...read.problems);
    const name = line.name.trim();
    const words = line.words.replace(/^"/, '');
    return { id: line.id, name, order: read.order, ...(words === '' ? {} : { words }) };
  });
  const legs = buildLegs(score, written, problems);
  if (legs.length > 0) return { legs, problems };
  const jumpsToCoda = chart.sections.some((_, index) =>
    score.play(index).some((bar) => hasMark(bar, 'toCoda')),
  );
  return { legs: buildLegs(score, defaultRoad(score.labels, jumpsToCoda), problems), problems };
};

const buildLegs = (score: Score, orders: readonly LegOrder[], problems: Problem[]): Leg[] => {
  const legs: Leg[] = [];
  /** What the last pass of the leg before plays. */
  let lastPass: readonly PlayedBar[] = [];
  const earlier: RoadOrder[] = [];
  /** The leg before, where nothing of it is played. */
  let silent: string | null = null;
  for (const legOrder of orders) {
    const { id, name, order } = legOrder;
    if (order.lastBars !== undefined) {
      const tag = buildTag(legOrder, order.lastBars, lastPass, { leg: legs.at(-1), silent });
      if ('leg' in tag) {
        legs.push(tag.leg);
        lastPass = lastPass.slice(-order.lastBars);
      } else problems.push(tag.problem);
      continue;
    }
    const { jump } = order;
    const pass = jump
      ? playJump(score, { ...order, jump }, earlier, { id, name })
      : { bars: order.sections.flatMap((section) => score.play(section)), lastBars: null, problems: [] };
    problems.push(...pass.problems);
    earlier.push(order);
    const bars = cutToMost(roadBars(pass.bars, name), legOrder, problems);
    const lastBars = pass.lastBars ? cutToMost(roadBars(pass.lastBars, name), legOrder, problems) : [];
    const first = bars.length > 0 ? bars : lastBars;
    silent = first.length === 0 ? name : null;
    if (first.length === 0) continue;
    const pickUp = score.pickUp(order.sections[0] ?? -1);
    legs.push({
      ...legBase(legOrder),
      bars: first,
      ...(lastBars.length > 0 && !isSameWay(first, lastBars) ? { lastBars } : {}),
      ...(pickUp ? { pickUp: roadBar(pickUp, name) } : {}),
      passes: order.times ?? 1,
    });
    lastPass = pass.lastBars ?? pass.bars;
  }
  return legs;
};

const legBase = ({ id, name, order, words }: LegOrder) => ({
  id,
  name,
  ...(order.trade === undefined ? {} : { trade: order.trade }),
  ...(words === undefined ? {} : { words }),
});

/**
 * `last 4 x3`: the last four bars that the leg before really played are heard three times in all, so twice more.
 * Without a number of times they are played once more. Where nothing of that leg is played, nothing is repeated: the
 * bars of another leg are not what was meant.
 */
const buildTag = (
  legOrder: LegOrder,
  barCount: number,
  lastPass: readonly PlayedBar[],
  { leg: before, silent }: { readonly leg: Leg | undefined; readonly silent: string | null },
): { readonly leg: Leg } | { readonly problem: Problem } => {
  const { id, name, order } = legOrder;
  if (!before || silent !== null) {
    const why = silent ? `nothing of ${silent} is played` : 'no leg is played before it';
    return {
      problem: {
        id,
        kind: 'nothing-before',
        words: `${name} repeats the last ${barCount === 1 ? 'bar' : `${barCount} bars`} of the leg before, but ${why}.`,
      },
    };
  }
  if (order.times === 1) {
    return {
      problem: {
        id,
        kind: 'tag-once',
        words: `${name} is heard once in all, so nothing is added. Three times in all is written x3.`,
        suggestion: `last ${barCount} x3`,
      },
    };
  }
  const bars = roadBars(lastPass, name)
    .slice(-barCount)
    .map((bar) => ({ ...bar, marks: bar.marks.flatMap((mark) => markInTag(mark, before)) }));
  const times = order.times ?? 2;
  return {
    leg: {
      ...legBase(legOrder),
      bars,
      passes: typeof times === 'number' ? times - 1 : times,
      ...(typeof times === 'number' ? { tag: { timesInAll: times } } : {}),
    },
  };
};

/** What was meant for the leg's last pass alone belongs to the last time of the tag, other passes' marks don't. */
const markInTag = (mark: RoadMark, before: Leg): RoadMark[] =>
  mark.pass === undefined || mark.pass === 'last'
    ? [mark]
    : mark.pass === before.passes
      ? [{ mark: mark.mark, atPulse: mark.atPulse, pass: 'last' }]
      : [];

const isSameWay = (a: readonly RoadBar[], b: readonly RoadBar[]): boolean =>
  a.length === b.length &&
  a.every((bar, index) => bar.id === b[index]?.id && bar.marks.length === b[index]?.marks.length);

const cutToMost = (bars: RoadBar[], { id, name }: LegOrder, problems: Problem[]): RoadBar[] => {
  if (bars.length <= MOST_BARS) return bars;
  problems.push({
    id,
    kind: 'too-long',
    words: `One pass of ${name} has more than ${MOST_BARS} bars; the rest is left out.`,
  });
  return bars.slice(0, MOST_BARS);
};
