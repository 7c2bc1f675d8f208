import type { Cue } from '../cue.ts';
import type { CueRule } from '../cue-rule.ts';

export const stop: CueRule<Extract<Cue, { kind: 'stop' }>> = {
  family: 'out',
  while: ['rolling'],
  boundary: (cue) => (cue.at === 'pass' ? 'pass' : 'pulse'),
  turn: 'end',
  tell: (cue, { last }) => ({
    name: 'Stop',
    detail: cue.at === 'pass' && last ? `end of ${last.leg.name}` : '',
  }),
};
