import { pieceAt, pieceIndexAt } from './ahead.ts';
import type { Performance } from './perform.ts';
import type { Tapped } from './tapped.ts';
import { bpmAt, type Tempo } from './tempo.ts';

/** The tempo through a take, and the taps that made it. */
export interface TempoCurve {
  /** Straight lines lead from one point to the next; a step has two points at the same time. */
  readonly points: readonly TempoPoint[];
  readonly taps: readonly Tapped[];
}

export interface TempoPoint {
  readonly atMs: number;
  /** Pulses a minute; where a tap bends the tempo, those to which the bend leads. */
  readonly bpm: number;
}

const pointsOf = (tempo: Tempo, fromMs: number, toMs: number): TempoPoint[] => {
  const ends = [fromMs, toMs].map((atMs) => ({ atMs, bpm: bpmAt(tempo, atMs) }));
  const { ramp } = tempo;
  const rampEndMs = tempo.fromMs + (ramp?.ms ?? 0);
  if (!ramp || ramp.bend || rampEndMs <= fromMs || rampEndMs >= toMs) return ends;
  return [...ends.slice(0, 1), { atMs: rampEndMs, bpm: ramp.toBpm }, ...ends.slice(1)];
};

/** The tempo from the start of the count-in up to `untilMs` or the end of the take; empty while waiting. */
export const tempoCurve = (performance: Performance, untilMs: number): TempoCurve => {
  pieceAt(performance, untilMs);
  const { pieces, taps } = performance.run.log;
  const points: TempoPoint[] = [];
  const last = pieceIndexAt(performance.run.log, untilMs);
  let from = 0;
  for (let i = 1; i <= last + 1; i += 1) {
    const { tempo = null, fromMs = untilMs } = pieces[from] ?? {};
    const next = i <= last ? pieces[i] : undefined;
    if (next && next.tempo === tempo) continue;
    if (tempo) points.push(...pointsOf(tempo, fromMs, next?.fromMs ?? untilMs));
    from = i;
  }
  return { points, taps: taps.filter(({ heardAtMs }) => heardAtMs <= untilMs) };
};
