import type { Cell, Mark, Metre } from '../../../common/chart/bar-music.ts';
import type { Leg, Road, RoadBar, RoadMark } from '../../../common/form/road.ts';
import type { Called, Cue, Take } from '../../../common/stage/cue.ts';

const metre = (pulses: number): Metre => ({
  text: `${pulses}/4`,
  upper: pulses,
  lower: 4,
  pulses,
  groups: [pulses],
  compound: false,
});

export interface BarSpec {
  readonly pulses?: number;
  /** Pulses of the metre, where the bar is shorter. */
  readonly metrePulses?: number;
  readonly phraseEnd?: boolean;
  readonly marks?: readonly RoadMark[];
  readonly letter?: string;
  /** Pulses at which chords begin; one chord for the whole bar where nothing is said. */
  readonly chords?: readonly number[];
}

const cell = (atPulse: number, lengthPulses: number): Cell => ({
  kind: 'chord',
  symbol: 'C7',
  atPulse,
  lengthPulses,
  pushed: false,
  carried: false,
});

export const bar = (id: string, spec: BarSpec = {}): RoadBar => {
  const { pulses = 4, metrePulses = pulses, phraseEnd = false, marks = [], letter, chords = [0] } = spec;
  const music = {
    metre: metre(metrePulses),
    pulses,
    pickUp: pulses < metrePulses,
    cells: chords.map((at, i) => cell(at, (chords[i + 1] ?? pulses) - at)),
    words: [],
    key: '',
  };
  return {
    id,
    pulses,
    phraseEnd,
    marks,
    content: { written: 1, music, lineEnd: phraseEnd, ...(letter === undefined ? {} : { letter }) },
  };
};

/** `n` bars of 4/4 in phrases of four, ids a1, a2 … for the prefix a; single bars may be told otherwise. */
export const bars = (prefix: string, n: number, others: Readonly<Record<number, BarSpec>> = {}): RoadBar[] =>
  Array.from({ length: n }, (_, i) =>
    bar(`${prefix}${i + 1}`, { phraseEnd: i % 4 === 3 || i === n - 1, ...others[i] }),
  );

export const leg = (
  id: string,
  passes: Leg['passes'],
  legBars: readonly RoadBar[],
  more: Partial<Leg> = {},
): Leg => ({
  id,
  name: id,
  bars: legBars,
  passes,
  ...more,
});

export const road = (legs: readonly Leg[], more: Partial<Road> = {}): Road => ({
  legs,
  tempoBpm: 120,
  countBars: 2,
  key: '',
  ...more,
});

/** A mark as it stands on a bar. */
export const mark = (written: Mark, atPulse = 0, pass?: number | 'last'): RoadMark => ({
  mark: written,
  atPulse,
  ...(pass === undefined ? {} : { pass }),
});

/** Calls as `[time, cue]`; ids c1, c2 … in order. */
export type Calls = readonly (readonly [number, Cue | { kind: 'takeBack'; cue: string }])[];

export const take = (onRoad: Road, calls: Calls): Take => ({
  id: 't',
  chart: 'ferry',
  title: 'Slow Ferry',
  road: onRoad,
  cues: calls.map(([calledAtMs, cue], i): Called => ({ id: `c${i + 1}`, cue, calledAtMs })),
});

/** The chart of the worked examples: A, 12 bars; Head ×1, Solos open, Head out ×1. */
export const twelveBars = (): Road => {
  const a = bars('a', 12);
  return road([leg('Head', 1, a), leg('Solos', 'open', a), leg('Head out', 1, a)]);
};

export const START: Cue = { kind: 'start' };
