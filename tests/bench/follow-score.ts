import type { Road } from '../../common/form/road.ts';
import type { Called, Take } from '../../common/stage/cue.ts';
import { locate } from '../../common/stage/locate.ts';
import { type Performance, perform } from '../../common/stage/perform.ts';
import { bars, leg, road } from '../common/stage/support-road.ts';
import type { Drummed } from './simulated-drummers.ts';

/** Where a board that follows the taps has its beats, ms; each as it was when the board came to it. */
export type Board = (drummed: Drummed, every: number) => readonly number[];

const open = (tempoBpm: number): Road => road([leg('A', 'open', bars('a', 12))], { tempoBpm, countBars: 0 });

/** The last performance of a take that grows by one tap after the other, as on the relay. */
export const performTaps = ({ tempoBpm, startMs, taps }: Drummed, every: number): Performance => {
  const start: Called = { id: 'start', cue: { kind: 'start' }, calledAtMs: startMs - 600 };
  let take: Take = { id: 't', chart: 'ferry', title: 'Slow Ferry', road: open(tempoBpm), cues: [start] };
  let performance = perform(take);
  taps.forEach(({ tappedAtMs, heardAtMs }, i) => {
    const downbeat = every > 1 ? { downbeat: true } : {};
    const tap: Called = {
      id: `tap${i}`,
      cue: { kind: 'tap', tappedAtMs, ...downbeat },
      calledAtMs: heardAtMs,
    };
    take = { ...take, cues: [...take.cues, tap] };
    performance = perform(take, performance);
  });
  return performance;
};

const isAt = (performance: Performance, beat: number, tMs: number): boolean => {
  const where = locate(performance, tMs);
  return where.state === 'playing' && where.bar * 4 + where.place.pulse >= beat;
};

/** When the place comes to a beat, found by halving: the place never goes back. */
const beatMs = (performance: Performance, beat: number, fromMs: number, toMs: number): number => {
  let [before, after] = [fromMs, toMs];
  while (after - before > 1e-3) {
    const middle = (before + after) / 2;
    if (isAt(performance, beat, middle)) after = middle;
    else before = middle;
  }
  return after;
};

export const tillcue: Board = (drummed, every) => {
  const performance = performTaps(drummed, every);
  let fromMs = drummed.startMs - 600;
  return drummed.beatsMs.map((_, beat) => {
    fromMs = beatMs(performance, beat, fromMs, fromMs + 6000);
    return fromMs;
  });
};

const median = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  const upper = sorted[middle] as number;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] as number) + upper) / 2;
};

const LAST_INTERVALS = 5;

/**
 * The plain way: the tempo is the median of the last five intervals, from each tap on; a tap within half a pulse is no
 * tap, and a missed one is seen. With `aligned` a beat is also put where the tap was.
 */
export const medianOfIntervals = (aligned: boolean): Board => {
  return ({ tempoBpm, startMs, beatsMs, taps }, every) => {
    let line = { count: 0, ms: startMs, pulseMs: 60_000 / tempoBpm };
    let lastMs: number | null = null;
    const intervals: number[] = [];
    const board: number[] = [];
    const comesTo = (beat: number) => line.ms + (beat - line.count) * line.pulseMs;
    for (const { tappedAtMs, heardAtMs } of taps) {
      while (board.length < beatsMs.length && comesTo(board.length) <= heardAtMs)
        board.push(comesTo(board.length));
      if (lastMs !== null && tappedAtMs - lastMs < line.pulseMs / 2) continue;
      if (lastMs !== null) {
        const interval = tappedAtMs - lastMs;
        intervals.push(interval / (every * Math.max(1, Math.round(interval / (every * line.pulseMs)))));
      }
      lastMs = tappedAtMs;
      const pulseMs = intervals.length > 0 ? median(intervals.slice(-LAST_INTERVALS)) : line.pulseMs;
      const count = line.count + (heardAtMs - line.ms) / line.pulseMs;
      const tapped = every * Math.round((line.count + (tappedAtMs - line.ms) / line.pulseMs) / every);
      line = aligned ? { count: tapped, ms: tappedAtMs, pulseMs } : { count, ms: heardAtMs, pulseMs };
    }
    while (board.length < beatsMs.length) board.push(Math.max(comesTo(board.length), board.at(-1) ?? 0));
    return board;
  };
};

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** Index of the first beat after so many taps have been heard since `sinceMs`. */
const beatAfterTaps = ({ beatsMs, taps }: Drummed, n: number, sinceMs: number): number => {
  const nth =
    taps.filter(({ tappedAtMs }) => tappedAtMs > sinceMs)[n - 1]?.heardAtMs ?? Number.POSITIVE_INFINITY;
  return beatsMs.findIndex((ms) => ms > nth);
};

const errors = (drummed: Drummed, board: readonly number[]): number[] =>
  board.map((ms, beat) => Math.abs(ms - (drummed.beatsMs[beat] as number)));

/** Mean absolute error of the board's beats after the first eight taps, ms. */
export const meanError = (drummed: Drummed, board: readonly number[]): number =>
  mean(errors(drummed, board).slice(beatAfterTaps(drummed, 8, Number.NEGATIVE_INFINITY)));

/** Mean absolute error of the four beats that follow the nth tap after the change, ms. */
export const errorAfterChange = (
  drummed: Drummed,
  board: readonly number[],
  changesAt: number,
  n: number,
): number => {
  const [last, next] = drummed.beatsMs.slice(changesAt, changesAt + 2) as [number, number];
  const from = beatAfterTaps(drummed, n, (last + next) / 2);
  return mean(errors(drummed, board).slice(from, from + 4));
};
