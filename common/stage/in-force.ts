import type { Leg, Road } from '../form/road.ts';
import { pieceAt } from './ahead.ts';
import type { Performance } from './perform.ts';
import { soundRoad } from './sound-road.ts';
import { bpmAt } from './tempo.ts';

/** The road in force at an instant: the take's own until another arrangement is adopted. */
export const roadAt = (performance: Performance, tMs: number): Road => {
  pieceAt(performance, tMs);
  const { roads } = performance.run.log;
  for (let i = roads.length - 1; i >= 0; i -= 1) {
    const adopted = roads[i];
    if (adopted && adopted.fromMs <= tMs) return adopted.road;
  }
  return soundRoad(performance.take.road);
};

/** Semitones by which the chart is read higher (−lower) than written at an instant. */
export const semitonesAt = (performance: Performance, _tMs: number): number =>
  performance.take.semitones ?? 0;

/** The leg being played, or about to be while counting; null while waiting and when ended. */
export const legAt = (performance: Performance, tMs: number): Leg | null => {
  const span = pieceAt(performance, tMs)?.span;
  if (!span) return null;
  if (span.kind === 'bar') return span.coming.leg;
  return roadAt(performance, tMs).legs.find((leg) => leg.id === span.place.leg) ?? null;
};

/** The tempo at which the band goes, would start or, while it holds, will go on: pulses a minute. */
export const tempoAt = (performance: Performance, tMs: number): number => {
  const tempo = pieceAt(performance, tMs)?.tempo;
  return tempo ? bpmAt(tempo, tMs) : performance.run.folded.startBpm;
};
