import { changeManner } from '../change-manner.ts';
import type { Cue } from '../cue.ts';
import { type CueRule, refusal } from '../cue-rule.ts';

type StopTime = Extract<Cue, { kind: 'stopTime' | 'stopTimeOff' }>;

/** "stop-time": the band hits on one of each bar, until it is called off. */
export const stopTime: CueRule<StopTime> = {
  family: 'out',
  while: ['rolling'],
  boundary: () => 'phrase',
  turn: 'manner',
  land: (course, _, { ms }) => {
    if (course.manner.stopTime === 'called') return refusal('stopTimeAlready', 'It is stop-time already.');
    changeManner(course, { stopTime: 'called' }, ms);
    return null;
  },
  tell: () => ({ name: 'Stop-time', detail: 'hit on one' }),
};

/** The band plays on; a stop-time that is written is off to its end. */
export const stopTimeOff: CueRule<StopTime> = {
  family: 'out',
  while: ['rolling'],
  boundary: () => 'phrase',
  turn: 'manner',
  land: (course, _, { ms }) => {
    const { stopTime: now } = course.manner;
    if (now !== 'called' && now !== 'written') return refusal('noStopTime', 'There is no stop-time then.');
    changeManner(course, { stopTime: 'off' }, ms);
    return null;
  },
  tell: () => ({ name: 'Stop-time off', detail: 'play on' }),
};
