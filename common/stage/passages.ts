import { pieceAt, pieceIndexAt, walkToBar } from './ahead.ts';
import type { Piece, Span } from './course.ts';
import type { Manner } from './manner.ts';
import type { Performance } from './perform.ts';
import type { ComingBar } from './place.ts';
import { bpmAt, countAt, msAt, type Tempo } from './tempo.ts';

/** A stretch of a passage that is played at one tempo. Counts are pulses played since the take began. */
export interface Stretch {
  readonly fromMs: number;
  /** Infinity where a hold has no end yet. */
  readonly toMs: number;
  readonly tempo: Tempo;
  readonly fromCount: number;
  /** What lies at this count belongs to what follows; a hold has its own count and no other. */
  readonly toCount: number;
}

/** A bar, or a count-in, as it goes by: all the stretches that have its place. */
export interface Passage {
  readonly span: Span;
  readonly stretches: readonly Stretch[];
  /** The bar or count-in before it, where there was one; without that one's own `before`. */
  readonly before: Omit<Passage, 'before'> | null;
  /** The bar that comes after it, as far as is known; null where the take ends. */
  readonly next: ComingBar | null;
}

/** Where a manner begins. */
export interface MannerFrom {
  readonly fromMs: number;
  readonly manner: Manner;
}

const TOLERANCE = 1e-6;

/** The pieces around index `i` that lie in one span: the first, and the one after the last. */
const piecesOfSpan = (pieces: readonly Piece[], i: number): { from: number; to: number } => {
  const span = pieces[i]?.span;
  let from = i;
  while (from > 0 && pieces[from - 1]?.span === span) from -= 1;
  let to = i + 1;
  while (to < pieces.length && pieces[to]?.span === span) to += 1;
  return { from, to };
};

const stretchesOf = (pieces: readonly Piece[], from: number, to: number): Stretch[] => {
  const stretches: Stretch[] = [];
  for (let i = from; i < to; i += 1) {
    const { fromMs, tempo } = pieces[i] as Piece;
    const next = pieces[i + 1];
    const toMs = next?.fromMs ?? Number.POSITIVE_INFINITY;
    if (!tempo || !(toMs > fromMs)) continue;
    const fromCount = countAt(tempo, fromMs);
    const isInside = i + 1 < to && next?.tempo;
    // One edge for both sides, so that nothing on it is played twice or left out.
    const toCount = isInside
      ? countAt(next.tempo, toMs)
      : tempo.still
        ? fromCount + 2 * TOLERANCE
        : countAt(tempo, toMs);
    stretches.push({ fromMs, toMs, tempo, fromCount, toCount });
  }
  return stretches;
};

const barAfter = (performance: Performance, span: Span): ComingBar | null => {
  const index = span.kind === 'bar' ? span.coming.index + 1 : span.nextBar;
  walkToBar(performance, index);
  return performance.run.log.bars[index] ?? null;
};

const passageAt = (
  performance: Performance,
  i: number,
): Omit<Passage, 'before'> & { from: number; to: number } => {
  const { pieces } = performance.run.log;
  const { from, to } = piecesOfSpan(pieces, i);
  const span = pieces[i]?.span as Span;
  return { span, stretches: stretchesOf(pieces, from, to), next: barAfter(performance, span), from, to };
};

/**
 * The bars and count-ins that go by between two instants, whole ones, in order, by what has been called so far.
 * What is asked for far ahead may still be changed by a cue.
 */
export const passagesBetween = (performance: Performance, fromMs: number, untilMs: number): Passage[] => {
  pieceAt(performance, untilMs);
  const { log } = performance.run;
  const passages: Passage[] = [];
  let i = Math.max(0, pieceIndexAt(log, fromMs));
  // What begins at one instant may end there too.
  while (i > 0 && (log.pieces[i]?.fromMs ?? 0) >= fromMs) i -= 1;
  while (i < log.pieces.length && (log.pieces[i] as Piece).fromMs <= untilMs) {
    if (!log.pieces[i]?.span) {
      i += 1;
      continue;
    }
    // The bar after it is walked to first, so that all its pieces are known.
    barAfter(performance, log.pieces[i]?.span as Span);
    const { from, to, ...passage } = passageAt(performance, i);
    const last = from > 0 && log.pieces[from - 1]?.span ? passageAt(performance, from - 1) : null;
    passages.push({
      ...passage,
      before: last && { span: last.span, stretches: last.stretches, next: last.next },
    });
    i = to;
  }
  return passages;
};

/** When a count of the passage is reached; null where it is passed over, or belongs to another passage. */
export const momentOf = ({ stretches }: Pick<Passage, 'stretches'>, count: number): number | null => {
  for (const { fromMs, tempo, fromCount, toCount } of stretches) {
    if (count < fromCount - TOLERANCE || count >= toCount - TOLERANCE) continue;
    return tempo.still ? fromMs : Math.max(fromMs, msAt(tempo, count));
  }
  return null;
};

/** Pulses a minute where a count of the passage is reached. */
export const bpmAtCount = ({ stretches }: Pick<Passage, 'stretches'>, count: number): number => {
  const found = stretches.find(({ toCount }) => count < toCount - TOLERANCE) ?? stretches.at(-1);
  if (!found) throw new Error(`no stretch in the passage at count ${count}`);
  const { tempo } = found;
  return tempo.still ? tempo.bpm : bpmAt(tempo, msAt(tempo, count));
};

/** All manners in which the band has played up to an instant, in order; the last one is in force. */
export const mannersUntil = (performance: Performance, tMs: number): readonly MannerFrom[] => {
  pieceAt(performance, tMs);
  const { manners } = performance.run.log;
  let to = manners.length;
  while (to > 0 && (manners[to - 1] as MannerFrom).fromMs > tMs) to -= 1;
  return manners.slice(0, to);
};

/** The bars of the take as far as they are known, at least up to an instant. */
export const barsUntil = (performance: Performance, tMs: number): readonly ComingBar[] => {
  pieceAt(performance, tMs);
  return performance.run.log.bars;
};
