import { changeManner } from '../change-manner.ts';
import type { Course } from '../course.ts';
import type { Cue } from '../cue.ts';
import { type CueRule, refusal } from '../cue-rule.ts';
import { soundingKeyWords } from '../key-words.ts';

type Modulation = Extract<Cue, { kind: 'up' | 'down' }>;

const OCTAVE = 12;

const stepsOf = ({ kind, semitones = 1 }: Modulation): number => (kind === 'up' ? semitones : -semitones);

/** A chart names no octaves: an octave higher is the same chart, so that the whole stays within −11 … 11. */
const withinOctave = (semitones: number): number => {
  if (semitones >= OCTAVE) return semitones - OCTAVE;
  return semitones <= -OCTAVE ? semitones + OCTAVE : semitones;
};

const modulate = (course: Course, cue: Modulation, ms: number): void =>
  changeManner(course, { semitones: withinOctave(course.manner.semitones + stepsOf(cue)) }, ms);

const intervalWords = (semitones: number): string => {
  if (semitones === 1) return 'a half step';
  return semitones === 2 ? 'a whole step' : `${semitones} half steps`;
};

/** "up" and "down": from the next pass on the chart is read so many semitones higher or lower. */
export const modulation: CueRule<Modulation> = {
  family: 'more',
  while: ['waiting', 'rolling'],
  boundary: () => 'pass',
  turn: 'manner',
  refuseAtCall: ({ semitones = 1 }) =>
    Number.isInteger(semitones) && semitones >= 1 && semitones < OCTAVE
      ? null
      : refusal('badInterval', 'Up or down goes 1 to 11 half steps.'),
  // Asked for before the count-in it is the tune's key this evening, and stays when the tune is begun again.
  atOnce: (course, cue, ms) => {
    modulate(course, cue, ms);
    course.startSemitones = course.manner.semitones;
  },
  land: (course, cue, { ms }) => {
    modulate(course, cue, ms);
    return null;
  },
  tell: ({ kind, semitones = 1 }, { next, course }) => {
    const written = next ? next.bar.content.music.key || course.road.key : '';
    return {
      name: `${kind === 'up' ? 'Up' : 'Down'} ${intervalWords(semitones)}`,
      detail: soundingKeyWords(written, next?.semitones ?? 0),
    };
  },
};
