import type { Span } from './course.ts';

interface Bar {
  readonly zero: number;
  readonly end: number;
}

/** Where whole bars begin as counts: at one of them, and how far apart. A pick-up is the end of a whole bar. */
const barLines = (span: Span, count: number): { from: number; pulses: number } => {
  if (span.kind === 'count') return { from: span.zero, pulses: span.barPulses };
  const { place, bar } = span.coming;
  if (place.barIndex < 0) return { from: span.end, pulses: bar.content.music.metre.pulses };
  return { from: count < span.end ? span.zero : span.end, pulses: bar.pulses };
};

/** The bar around a count. The bars beside the one being played are taken to be as long as it is. */
const barAround = (span: Span, count: number): Bar => {
  const { from, pulses } = barLines(span, count);
  const zero = from + Math.floor((count - from) / pulses) * pulses;
  return { zero, end: zero + pulses };
};

const nearer = (count: number, below: number, above: number): number =>
  count - below <= above - count ? below : above;

/** The count of the pulse nearest to `count`; before the first count of a count-in there is none. */
export const nearestPulse = (span: Span, count: number): number => {
  const from = span.kind === 'count' ? Math.max(count, span.zero) : count;
  const { zero, end } = barAround(span, from);
  const below = zero + Math.floor(from - zero);
  return nearer(from, below, Math.min(below + 1, end));
};

/** The count of the beat one nearest to `count`; before the first count of a count-in there is none. */
export const nearestDownbeat = (span: Span, count: number): number => {
  const from = span.kind === 'count' ? Math.max(count, span.zero) : count;
  const { zero, end } = barAround(span, from);
  return nearer(from, zero, end);
};
