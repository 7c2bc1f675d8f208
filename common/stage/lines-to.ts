import type { Landing, Span } from './course.ts';

/** Where the band is: in which span, and how far on the count axis. */
export interface Now {
  readonly span: Span | null;
  readonly count: number;
}

/** A line is behind the band from its count on, rounding aside. */
const ROUNDING = 1e-9;

/** Bar lines still to cross, the landing's own included; those of the count-in are counted too. */
export const linesTo = ({ span, count }: Now, landing: Pick<Landing, 'bar' | 'count'>): number => {
  if (!span) return 0;
  if (span.kind === 'bar') return Math.max(0, landing.bar - span.coming.index);
  const lines = (at: number) => Math.floor((at - span.zero) / span.barPulses + ROUNDING);
  return Math.max(0, landing.bar - span.nextBar + lines(Math.min(landing.count, span.end)) - lines(count));
};

/** Beats still to come before the landing, begun ones counted whole. */
export const beatsTo = (now: Now, landing: Pick<Landing, 'count'>): number =>
  Math.max(0, Math.ceil(landing.count - now.count - ROUNDING));
