import { count } from '../../form/count.ts';
import type { Leg, RoadBar } from '../../form/road.ts';
import type { Course } from '../course.ts';
import type { Cue } from '../cue.ts';
import { type CueRule, refusal } from '../cue-rule.ts';
import { barsOf, isLastPass, type Spot } from '../spot.ts';

type Tag = Extract<Cue, { kind: 'tag' }>;

const DEFAULT_BARS = 4;
const DEFAULT_TIMES = 3;
const MOST_TIMES = 99;

const isCount = (n: number | undefined, least: number): boolean =>
  n === undefined || (Number.isInteger(n) && n >= least);

export const tag: CueRule<Tag> = {
  family: 'more',
  while: ['rolling'],
  boundary: () => 'roadEnd',
  refuseAtCall: ({ bars, times }) =>
    isCount(bars, 1) && isCount(times, 2) && (times ?? 2) <= MOST_TIMES
      ? null
      : refusal('badTag', 'A tag is one bar or more, heard twice or more.'),
  refuseAtNotice: (_, course) => {
    const { leg, next } = course.spot as Spot;
    if (course.road.legs.slice(next).some((later) => later.tag)) {
      return refusal('tagWritten', 'A tag is written at the end: call one more there to lengthen it.');
    }
    return leg.tag && next >= course.road.legs.length
      ? refusal('inTag', 'This is the tag: call one more to lengthen it.')
      : null;
  },
  tell: ({ bars = DEFAULT_BARS, times = DEFAULT_TIMES }, { next }) => ({
    name: 'Tag',
    detail: `last ${next?.leg.tag ? next.leg.bars.length : bars}, ${count(times, 'time')}`,
  }),
};

/** Why a tag is not played: another arrangement has been taken, and another leg is its last. */
export const TAG_GONE = refusal('tagGone', 'The leg that the tag was called for is gone.');

/** The bar as it was played in that pass: what was only for other passes is gone. */
const asPlayed = (bar: RoadBar, spot: Spot): RoadBar => {
  if (bar.marks.every((mark) => mark.pass === undefined)) return bar;
  const marks = bar.marks
    .filter(({ pass }) => pass === undefined || pass === spot.pass || (pass === 'last' && isLastPass(spot)))
    .map(({ mark, atPulse }) => ({ mark, atPulse }));
  return { ...bar, marks };
};

/** The leg that a tag adds after the pass at `course.spot`: its last bars, so that they are heard `times` in all. */
export const tagLeg = (course: Course, id: string, cue: Tag): Leg => {
  const spot = course.spot as Spot;
  const played = barsOf(spot);
  const bars = Math.min(played.length, cue.bars ?? DEFAULT_BARS);
  const timesInAll = cue.times ?? DEFAULT_TIMES;
  return {
    id: `tag:${id}`,
    name: 'Tag',
    bars: played.slice(played.length - bars).map((bar) => asPlayed(bar, spot)),
    passes: timesInAll - 1,
    tag: { timesInAll },
  };
};
