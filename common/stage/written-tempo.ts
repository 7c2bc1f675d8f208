import type { Mark } from '../chart/bar-music.ts';
import type { RoadBar, RoadMark } from '../form/road.ts';
import type { Course } from './course.ts';
import { writtenHoldPulse } from './hold-onset.ts';
import { barsOf, type Spot } from './spot.ts';
import { bpmAt, FASTEST_BPM, isTempo, rampTempo, SLOWEST_BPM, type Tempo } from './tempo.ts';
import { isForPass, TOLERANCE_PULSES } from './written-marks.ts';

/** What a rit. and an accel. come to of the tempo before them, where no tempo is written at their end. */
const SLOWER = 3 / 4;
const FASTER = 4 / 3;

type TempoMark = Extract<Mark, { kind: 'tempo' | 'rit' | 'accel' | 'aTempo' }>;
type Written = RoadMark & { readonly mark: TempoMark };

const isTempoWord = (written: RoadMark): written is Written => {
  const { kind } = written.mark;
  return kind === 'tempo' || kind === 'rit' || kind === 'accel' || kind === 'aTempo';
};

/** Tempo words for this pass that begin after pulse `after` (exclusive) and by pulse `by`, in order. */
const tempoWords = (spot: Spot, bar: RoadBar, after: number, by: number): Written[] =>
  bar.marks.length === 0
    ? []
    : bar.marks
        .filter(isTempoWord)
        .filter((written) => written.atPulse > after && written.atPulse <= by && isForPass(written, spot))
        .sort((a, b) => a.atPulse - b.atPulse);

/** The first pulse after `after` at which a tempo word of the bar acts; Infinity where there is none. */
export const nextWrittenTempo = (spot: Spot, bar: RoadBar, after: number): number =>
  tempoWords(spot, bar, after, Number.POSITIVE_INFINITY)[0]?.atPulse ?? Number.POSITIVE_INFINITY;

/** The tempo that is written in figures in the bar by a pulse; undefined where there is none. */
export const writtenBpm = (spot: Spot, bar: RoadBar, byPulse: number): number | undefined => {
  const words = tempoWords(spot, bar, Number.NEGATIVE_INFINITY, byPulse);
  return words.map(({ mark }) => (mark.kind === 'tempo' ? mark.bpm : undefined)).findLast(isTempo);
};

/** Where a rit. or an accel. ends: so many pulses after pulse 0 of its bar, and the tempo written there. */
interface Arrival {
  readonly pulses: number;
  readonly bpm?: number;
}

/** It ends at the next tempo word or hold written in its phrase, at the latest with the phrase. */
const arrivalOf = (spot: Spot, bar: RoadBar, fromPulse: number): Arrival => {
  const bars = [bar, ...barsOf(spot).slice(spot.barIndex + 1)];
  let pulses = 0;
  for (const [i, one] of bars.entries()) {
    const after = i === 0 ? fromPulse : -1;
    const word = tempoWords(spot, one, after, Number.POSITIVE_INFINITY)[0];
    const hold = writtenHoldPulse(spot, one, i === 0 ? fromPulse : 0);
    const isOver = i > 0 && bars[i - 1]?.phraseEnd === true;
    // What stands on the first pulse after the phrase is what it leads to.
    if (isOver && word?.atPulse !== 0) return { pulses };
    if (word && word.atPulse <= hold) {
      const { mark, atPulse } = word;
      return { pulses: pulses + atPulse, ...(mark.kind === 'tempo' ? { bpm: mark.bpm } : {}) };
    }
    if (hold < one.pulses) return { pulses: pulses + hold };
    pulses += one.pulses;
  }
  return { pulses };
};

const within = (bpm: number): number => Math.min(FASTEST_BPM, Math.max(SLOWEST_BPM, bpm));

/** Where the band is in the bar, on the count axis and in time. */
interface At {
  readonly pulse: number;
  readonly count: number;
  readonly ms: number;
}

/** Slower or faster from here on up to where it ends; nothing where the band goes so slow or so fast already. */
const changeGradually = (
  course: Course,
  spot: Spot,
  bar: RoadBar,
  { mark, atPulse }: Written,
  at: At,
): void => {
  const now = bpmAt(course.tempo as Tempo, at.ms);
  const before = course.aTempoBpm ?? now;
  const arrival = arrivalOf(spot, bar, atPulse);
  const slower = mark.kind === 'rit';
  const isOnItsWay = (bpm: number) => (slower ? bpm < now : bpm > now);
  const written = isTempo(arrival.bpm) && isOnItsWay(arrival.bpm) ? arrival.bpm : undefined;
  const to = written ?? within(before * (slower ? SLOWER : FASTER));
  const pulses = arrival.pulses - at.pulse;
  if (!isOnItsWay(to) || !(pulses > 0)) return;
  course.aTempoBpm = before;
  course.tempo = rampTempo(at.count, at.ms, now, to, pulses);
};

const step = (course: Course, bpm: number, { count, ms }: At): void => {
  course.tempo = { fromCount: count, fromMs: ms, bpm };
  course.aTempoBpm = null;
};

/**
 * Lets the tempo words act that begin in the bar after pulse `after` and by the pulse at which the band is: a tempo
 * steps; a rit. or accel. ramps to the tempo written at its end, else to 3/4 or 4/3 of the tempo before; a tempo goes
 * back to that.
 */
export const actWrittenTempo = (course: Course, spot: Spot, bar: RoadBar, after: number, at: At): void => {
  // A loop with steps has a tempo of its own.
  if (course.manner.loop?.stepBpm) return;
  for (const written of tempoWords(spot, bar, after, at.pulse + TOLERANCE_PULSES)) {
    const { mark } = written;
    if (mark.kind === 'rit' || mark.kind === 'accel') changeGradually(course, spot, bar, written, at);
    else {
      const bpm = mark.kind === 'tempo' ? mark.bpm : course.aTempoBpm;
      if (isTempo(bpm)) step(course, bpm, at);
    }
  }
};
