import type { Leg, Road } from '../form/road.ts';
import { pieceAt, walkToLandings } from './ahead.ts';
import { freshManner, type Loop, type Manner } from './manner.ts';
import type { Performance } from './perform.ts';
import type { Place } from './place.ts';
import { nextSoloistOf, soloistOf } from './solo.ts';
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

/** In what manner the band plays at an instant. */
const mannerAt = (performance: Performance, tMs: number): Manner => {
  pieceAt(performance, tMs);
  const { manners } = performance.run.log;
  const found = manners.findLast(({ fromMs }) => fromMs <= tMs);
  return found?.manner ?? freshManner(performance.take.semitones ?? 0);
};

/** Semitones by which the chart is read higher (−lower) than written at an instant. */
export const semitonesAt = (performance: Performance, tMs: number): number =>
  mannerAt(performance, tMs).semitones;

/** The feel of half- or double-time, called or written; null where there is none. */
export const feelAt = (performance: Performance, tMs: number): 'half' | 'double' | null => {
  const { feel, writtenFeel } = mannerAt(performance, tMs);
  if (feel) return feel;
  if (writtenFeel === 'half-time') return 'half';
  return writtenFeel === 'double-time' ? 'double' : null;
};

/** The dynamic called ('down', 'build'), else the sign that the chart came to last ('mf'); null before the first. */
export const dynamicAt = (performance: Performance, tMs: number): string | null => {
  const { dynamic, writtenDynamic } = mannerAt(performance, tMs);
  return dynamic ?? writtenDynamic;
};

/** Stop-time, called or written. */
export const stopTimeAt = (performance: Performance, tMs: number): boolean => {
  const { stopTime } = mannerAt(performance, tMs);
  return stopTime === 'called' || stopTime === 'written';
};

/** The solo order, who solos now and who is next; null where none is named. */
export const soloAt = (
  performance: Performance,
  tMs: number,
): {
  readonly order: readonly string[];
  readonly now: string | null;
  readonly next: string | null;
} | null => {
  const { solo } = mannerAt(performance, tMs);
  return solo && { order: solo.order, now: soloistOf(solo), next: nextSoloistOf(solo) };
};

/** The loop that the band plays or is counted in to; null where there is none. */
export const loopAt = (performance: Performance, tMs: number): Loop | null => mannerAt(performance, tMs).loop;

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

/** Where the take was stopped, or will be by what has been called; null where it ends by itself or goes on. */
export const lastStopAt = (performance: Performance): Place | null => {
  walkToLandings(performance);
  return performance.run.ahead.stopped?.place ?? null;
};
