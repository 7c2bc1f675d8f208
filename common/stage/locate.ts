import { pieceAt } from './ahead.ts';
import type { BarSpan, CountIn, Piece } from './course.ts';
import type { Performance } from './perform.ts';
import type { Where } from './place.ts';
import { bpmAt, countAt, type Tempo } from './tempo.ts';

/** Keeps a pulse inside its bar where rounding has put it on the next line. */
const LAST_PULSE = 1e-9;

const inCount = (span: CountIn, tempo: Tempo, tMs: number): Where => {
  return {
    state: 'count',
    place: span.place,
    pulsesToCome: Math.max(0, span.end - countAt(tempo, tMs)),
    countPulses: span.end - span.zero,
    barPulses: span.barPulses,
    bpm: bpmAt(tempo, tMs),
  };
};

const inBar = ({ coming, zero }: BarSpan, tempo: Tempo, tMs: number): Where => {
  const { leg, pass, barIndex } = coming.place;
  const pulse = Math.min(Math.max(0, countAt(tempo, tMs) - zero), coming.bar.pulses - LAST_PULSE);
  const place = { leg, pass, barIndex, pulse };
  return tempo.still
    ? { state: 'held', place, bar: coming.index, sinceMs: tempo.fromMs }
    : { state: 'playing', place, bar: coming.index, bpm: bpmAt(tempo, tMs) };
};

const inPiece = ({ span, tempo, fromMs }: Piece, tMs: number): Where => {
  if (!span || !tempo) return { state: 'ended', atMs: fromMs };
  return span.kind === 'count' ? inCount(span, tempo, tMs) : inBar(span, tempo, tMs);
};

/**
 * Where the band is at an instant of shared time, by what has been called so far. Two machines with the same
 * take answer the same to the last bit. Cheap enough for every animation frame: it only searches what has
 * been walked already.
 */
export const locate = (performance: Performance, tMs: number): Where => {
  const piece = Number.isNaN(tMs) ? undefined : pieceAt(performance, tMs);
  return piece ? inPiece(piece, tMs) : { state: 'waiting' };
};
