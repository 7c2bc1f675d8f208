import { count } from '../../form/count.ts';
import { changeManner } from '../change-manner.ts';
import type { Span } from '../course.ts';
import type { Cue } from '../cue.ts';
import { type CueRule, refusal } from '../cue-rule.ts';
import { bpmAt, FASTEST_BPM, isTempo, rampTempo, SLOWEST_BPM, type Tempo } from '../tempo.ts';

type TempoCue = Extract<Cue, { kind: 'tempo' }>;

const LONGEST_RAMP_BARS = 999;

const isRamp = (overBars: number | undefined): boolean =>
  overBars === undefined || (overBars >= 0 && overBars <= LONGEST_RAMP_BARS);

const barPulses = (span: Span): number => (span.kind === 'count' ? span.barPulses : span.coming.bar.pulses);

export const tempo: CueRule<TempoCue> = {
  family: 'feel',
  while: ['waiting', 'rolling'],
  boundary: () => 'pulse',
  turn: 'tempo',
  refuseAtCall: ({ bpm, overBars }) => {
    if (!isTempo(bpm)) {
      return refusal('badTempo', `A tempo lies between ${SLOWEST_BPM} and ${FASTEST_BPM}.`);
    }
    return isRamp(overBars) ? null : refusal('badRamp', 'A tempo change takes a number of bars.');
  },
  atOnce: (course, { bpm }) => {
    course.startBpm = bpm;
    course.startBpmCalled = true;
  },
  land: (course, { bpm, overBars = 0 }, { count: fromCount, ms: fromMs }) => {
    const now = bpmAt(course.tempo as Tempo, fromMs);
    course.aTempoBpm = null;
    const pulses = overBars * barPulses(course.span as Span);
    course.tempo = pulses > 0 ? rampTempo(fromCount, fromMs, now, bpm, pulses) : { fromCount, fromMs, bpm };
    const { loop } = course.manner;
    if (loop) changeManner(course, { loop: { ...loop, bpm } }, fromMs);
    return null;
  },
  tell: ({ bpm, overBars }) => ({
    name: 'Tempo',
    detail: overBars ? `${bpm} over ${count(overBars, 'bar')}` : `${bpm}`,
  }),
};
