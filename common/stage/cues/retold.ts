import type { Cue } from '../cue.ts';
import type { CueRule } from '../cue-rule.ts';

/** "resume": the take goes on as if it had not been stopped. What comes of it: `retold.ts`, here and below. */
export const resume: CueRule<Extract<Cue, { kind: 'resume' }>> = {
  family: 'move',
  while: ['waiting', 'rolling', 'ended'],
  boundary: () => 'atOnce',
  tell: () => ({ name: 'Resume', detail: '' }),
};

/** "it happened": a cue has landed where it just missed to. */
export const itHappened: CueRule<Extract<Cue, { kind: 'itHappened' }>> = {
  family: 'move',
  while: ['rolling'],
  boundary: () => 'atOnce',
  tell: () => ({ name: 'It happened', detail: '' }),
};
