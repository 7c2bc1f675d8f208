import type { BarMusic, Mark } from '../chart/bar-music.ts';

/**
 * A chart's road map unrolled to the bars that are really played. Plain data: it travels in the stage
 * document and is the same on every machine.
 */
export interface Road {
  readonly legs: readonly Leg[];
  /** Pulses a minute, 20–400. */
  readonly tempoBpm: number;
  /** Bars of count-in, 0–8. */
  readonly countBars: number;
  /** Concert key as written, for example 'Eb blues'; '' where none is given. */
  readonly key: string;
}

/** One line of the road map. */
export interface Leg {
  readonly id: string;
  readonly name: string;
  /** Bars of a pass, in the order played: repeats and endings are unrolled. Never empty. */
  readonly bars: readonly RoadBar[];
  /** Bars of the last pass where they differ, as in al Coda. */
  readonly lastBars?: readonly RoadBar[];
  /** A pick-up before bar 1, played only where a take starts at the top of this leg; its place has barIndex −1. */
  readonly pickUp?: RoadBar;
  readonly passes: number | 'open' | 'vamp';
  /** A leg made by a tag, written or called: shown "2 of 3". */
  readonly tag?: { readonly timesInAll: number };
  /** Bars of a turn, where the passes are traded. */
  readonly trade?: number;
  /** The words in quotes on the road line. */
  readonly words?: string;
}

export interface RoadBar {
  /** Of the written bar; repeats within and across legs. */
  readonly id: string;
  readonly pulses: number;
  readonly phraseEnd: boolean;
  readonly marks: readonly RoadMark[];
  /** A copy of what the bar holds, used if it is deleted from the chart meanwhile. */
  readonly content: RoadBarContent;
}

/** A mark at its place; `pass` limits it to one pass of the leg (repeats inside a pass are resolved already). */
export interface RoadMark {
  readonly mark: Mark;
  readonly atPulse: number;
  readonly pass?: number | 'last';
}

export interface RoadBarContent {
  /** Number the bar has on paper, from 1 through the chart (0: a pick-up). */
  readonly written: number;
  readonly music: BarMusic;
  /** Rehearsal letter, on the first bar of a section. */
  readonly letter?: string;
  readonly lineEnd: boolean;
}
