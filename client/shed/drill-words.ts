import type { RankedSpot } from '../../common/form/lost-spots/lost-spots.ts';
import type { Answer } from '../../common/rehearsal/drill-answer.ts';
import type { DrilledCue } from '../../common/rehearsal/drill-cues.ts';
import { type Dark, TOP } from '../../common/rehearsal/lost-drill.ts';

const CUE_WORDS: Readonly<Record<DrilledCue, string>> = {
  breakAtTop: 'Break at the top',
  break: 'Break at the phrase',
  soloBreak: 'Break in the last bars',
  lastChorus: 'Last chorus',
  lastThenMore: 'Last chorus, then one more',
  oneMore: 'One more',
  tag: 'Tag',
  trade: 'Trade fours',
  hold: 'Hold',
  release: 'Release',
  halfStep: 'Another key',
  goTo: 'Go to a letter',
};

/** What was asked, in words; `''` where this version does not know it. */
export const cueWords = (name: string): string =>
  Object.hasOwn(CUE_WORDS, name) ? CUE_WORDS[name as DrilledCue] : '';

/** A lost spot by its id, in words, as the chart has it now. */
export const spotWords = (name: string, spots: ReadonlyMap<string, RankedSpot>): string =>
  name === TOP ? 'the way to the top' : (spots.get(name)?.announce ?? 'a spot of an earlier version');

/** @example beatsWords(1.25) // '1.3 beats' */
export const beatsWords = (beats: number): string =>
  `${beats.toFixed(1)} ${beats.toFixed(1) === '1.0' ? 'beat' : 'beats'}`;

/** Less than this nobody hears as early or late, beats. */
const ON_THE_BEAT = 0.05;

const errorWords = ({ right, errorBeats }: Answer): string => {
  if (errorBeats === null) return right ? 'silent in the break' : 'no tap';
  if (Math.abs(errorBeats) < ON_THE_BEAT) return 'on the beat';
  return `${beatsWords(Math.abs(errorBeats))} ${errorBeats < 0 ? 'early' : 'late'}`;
};

/** @example answerWords({ name: 'tag', right: true, errorBeats: 0.2 }) // 'Right: 0.2 beats late' */
export const answerWords = (answer: Answer): string =>
  `${answer.right ? 'Right' : 'Missed'}: ${errorWords(answer)}`;

/** Where to tap in the dark. */
export const dueWords = ({ due, from }: Pick<Dark, 'due' | 'from'>): string => {
  const { place, leg, bar } = due;
  if (leg.id !== from.leg.id) return `the first bar of ${leg.name}`;
  if (place.barIndex === 0) return 'the top';
  const letter = bar.content.letter ?? '';
  return letter === '' ? `bar ${place.barIndex + 1}` : `letter ${letter}, bar ${place.barIndex + 1}`;
};
