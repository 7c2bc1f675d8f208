import { changeManner } from '../change-manner.ts';
import type { Cue } from '../cue.ts';
import { type CueRule, refusal } from '../cue-rule.ts';

type Dynamic = Extract<Cue, { kind: 'dynamic' }>;

const NAMES = { down: 'Bring it down', build: 'Build' } as const;

const isCalled = (dynamic: string): dynamic is keyof typeof NAMES => Object.hasOwn(NAMES, dynamic);

/** "bring it down", "build": until it is called off. */
export const dynamic: CueRule<Dynamic> = {
  family: 'feel',
  while: ['rolling'],
  boundary: () => 'pulse',
  turn: 'manner',
  refuseAtCall: (cue) =>
    isCalled(cue.dynamic) || cue.dynamic === 'as written'
      ? null
      : refusal('badDynamic', 'The band is brought down, builds, or plays as written.'),
  land: (course, cue, { ms }) => {
    const called = isCalled(cue.dynamic) ? cue.dynamic : null;
    if (called === course.manner.dynamic) {
      return called
        ? refusal('dynamicAlready', 'That is called already.')
        : refusal('asWritten', 'The dynamics are as written already.');
    }
    changeManner(course, { dynamic: called }, ms);
    return null;
  },
  tell: (cue) =>
    isCalled(cue.dynamic)
      ? { name: NAMES[cue.dynamic], detail: '' }
      : { name: 'Dynamics', detail: 'as written' },
};
