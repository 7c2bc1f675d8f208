import { changeManner } from '../change-manner.ts';
import type { Cue } from '../cue.ts';
import { type CueRule, refusal } from '../cue-rule.ts';

type Feel = Extract<Cue, { kind: 'feel' }>;

const NAMES = { half: 'Half-time', double: 'Double-time' } as const;

const isCalled = (feel: string): feel is keyof typeof NAMES => Object.hasOwn(NAMES, feel);

/** "half-time", "double-time": the feel changes until it is called off; bars go by at the same speed. */
export const feel: CueRule<Feel> = {
  family: 'feel',
  while: ['rolling'],
  boundary: () => 'phrase',
  turn: 'manner',
  refuseAtCall: (cue) =>
    isCalled(cue.feel) || cue.feel === 'as written'
      ? null
      : refusal('badFeel', 'A feel is half-time, double-time or as written.'),
  land: (course, cue, { ms }) => {
    const called = isCalled(cue.feel) ? cue.feel : null;
    if (called === course.manner.feel) {
      return called
        ? refusal('feelAlready', `It is ${NAMES[called].toLowerCase()} already.`)
        : refusal('asWritten', 'The feel is as written already.');
    }
    changeManner(course, { feel: called }, ms);
    return null;
  },
  tell: (cue) =>
    isCalled(cue.feel) ? { name: NAMES[cue.feel], detail: '' } : { name: 'Feel', detail: 'as written' },
};
