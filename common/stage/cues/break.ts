import { count } from '../../form/count.ts';
import type { Cue } from '../cue.ts';
import { type CueRule, refusal } from '../cue-rule.ts';

type Break = Extract<Cue, { kind: 'break' }>;

const LONGEST_BARS = 999;
const BOUNDARIES = { phrase: 'phrase', pass: 'pass', lastBars: 'lastBars' } as const;

/** "break": beat one sounds, then the band is out for so many bars as played, the one with the hit included. */
export const breakOut: CueRule<Break> = {
  family: 'out',
  while: ['rolling'],
  boundary: ({ at = 'phrase' }) => BOUNDARIES[at] ?? 'phrase',
  turn: 'bar',
  refuseAtCall: ({ bars }) =>
    Number.isInteger(bars) && bars >= 1 && bars <= LONGEST_BARS
      ? null
      : refusal('badBreak', 'A break lasts one bar or more.'),
  land: (course, { bars }) => {
    course.outBars = bars;
    course.outHit = true;
    return null;
  },
  tell: ({ bars }) => ({ name: 'Break', detail: count(bars, 'bar') }),
};
