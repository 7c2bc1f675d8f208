import type { CountIn, Landing, Span } from './course.ts';
import { countAt, msAt, type Tempo } from './tempo.ts';

/** Where the band is: in which span, and how far on the count axis. */
export interface Now {
  readonly ms: number;
  readonly span: Span | null;
  readonly count: number;
  /** Length of a pulse at the tempo now; while the band holds, at the tempo at which it will go on. */
  readonly pulseMs: number;
  readonly held: boolean;
}

/** A line is behind the band from its count on, rounding aside. */
const ROUNDING = 1e-9;

/** Bar lines within a count-in by the time `count` is reached. */
export const linesInCount = ({ zero, end, barPulses }: CountIn, count: number): number =>
  Math.floor((Math.min(count, end) - zero) / barPulses + ROUNDING);

/** Bar lines behind the band since the first one of the take. */
const linesBehind = (span: Span, count: number): number =>
  span.kind === 'bar'
    ? span.coming.index + span.countLines
    : span.nextBar + span.countLines + linesInCount(span, count);

export const nowOf = (span: Span | null, tempo: Tempo | null, tMs: number): Now => {
  if (!tempo) return { ms: tMs, span, count: 0, pulseMs: 500, held: false };
  const count = countAt(tempo, tMs);
  const held = tempo.still === true;
  const pulseMs = held ? 60_000 / tempo.bpm : msAt(tempo, count + 1) - msAt(tempo, count);
  return { ms: tMs, span, count, pulseMs, held };
};

type Target = Pick<Landing, 'line' | 'count' | 'ms'>;

/**
 * Bar lines still to cross, the landing's own included; those of count-ins are counted too. Infinity where
 * nobody can say when it lands.
 */
export const linesTo = ({ span, count }: Now, landing: Target): number => {
  if (!span) return 0;
  if (landing.ms === Number.POSITIVE_INFINITY) return Number.POSITIVE_INFINITY;
  return Math.max(0, landing.line - linesBehind(span, count));
};

/** Beats still to come before the landing, begun ones counted whole; Infinity with `linesTo`. */
export const beatsTo = (now: Now, landing: Target): number => {
  if (landing.ms === Number.POSITIVE_INFINITY) return Number.POSITIVE_INFINITY;
  // While the band holds no beat goes by; beats are what notice is counted in.
  const beats = now.held ? (landing.ms - now.ms) / now.pulseMs : landing.count - now.count;
  return Math.max(0, Math.ceil(beats - ROUNDING));
};
