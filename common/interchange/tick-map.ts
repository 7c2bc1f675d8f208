import type { Metre } from '../chart/bar-music.ts';
import { COMMON_TIME } from '../chart/read-metre.ts';
import type { Span } from '../stage/course.ts';
import type { Passage, Stretch } from '../stage/passages.ts';
import { countAt, msAt } from '../stage/tempo.ts';
import { SLOWEST_TEMPO_US } from './midi-bytes.ts';

/** From `tick` on a quarter note lasts so long; `ms` is the time that a reader of the file comes to there. */
export interface TempoStep {
  readonly tick: number;
  readonly ms: number;
  readonly usPerQuarter: number;
}

/** Where a bar or a count-in begins. */
export interface SpanAt {
  readonly tick: number;
  readonly span: Span;
  /** Pulse at which it was entered: not 0 where the band was found in the middle of the bar. */
  readonly fromPulse: number;
}

/** The times of a take as ticks of a file. */
export interface TickMap {
  readonly steps: readonly TempoStep[];
  readonly spans: readonly SpanAt[];
  readonly endTick: number;
  /** The tick nearest to an instant of shared time. */
  readonly tickAt: (atMs: number) => number;
}

/** A change of tempo is written as steps so many to a pulse. */
const STEPS_A_PULSE = 16;

/** Quarter notes of a pulse: 1.5 in 6/8. */
export const quartersOf = ({ lower, compound }: Metre): number => (4 / lower) * (compound ? 3 : 1);

interface Point {
  readonly count: number;
  readonly ms: number;
}

/** The points between which a stretch is written with an even tempo, its end included. */
const pointsOf = (stretch: Stretch, spanEnd: number, untilMs: number): Point[] => {
  const { tempo, fromCount, toCount, toMs } = stretch;
  // What a hold takes of the bar is spread over the rest of it.
  if (tempo.still) return [{ count: spanEnd, ms: Math.min(toMs, untilMs) }];
  const points: Point[] = [];
  if (tempo.ramp) {
    const rampEnd = tempo.fromCount + tempo.ramp.pulses;
    const first = Math.floor(fromCount * STEPS_A_PULSE) + 1;
    for (let step = first; step / STEPS_A_PULSE < Math.min(toCount, rampEnd); step += 1) {
      points.push({ count: step / STEPS_A_PULSE, ms: msAt(tempo, step / STEPS_A_PULSE) });
    }
    if (rampEnd > fromCount && rampEnd < toCount) points.push({ count: rampEnd, ms: msAt(tempo, rampEnd) });
  }
  const last =
    toMs < untilMs ? { count: toCount, ms: toMs } : { count: countAt(tempo, untilMs), ms: untilMs };
  return [...points.filter(({ ms }) => ms < last.ms), last];
};

class Steps {
  readonly steps: TempoStep[] = [];
  private readonly startMs: number;
  private readonly ticksPerQuarter: number;
  /** Exact place on the axis of ticks, and the tick and the time that the file has come to. */
  private exactTick = 0;
  tick = 0;
  private fileMs = 0;

  constructor(startMs: number, ticksPerQuarter: number) {
    this.startMs = startMs;
    this.ticksPerQuarter = ticksPerQuarter;
  }

  /** Goes on by so many quarters, up to an instant. What rounding has left over is made up for by the next step. */
  goTo(quarters: number, atMs: number): void {
    this.exactTick += quarters * this.ticksPerQuarter;
    const ms = atMs - this.startMs - this.fileMs;
    const least = Math.ceil((ms * 1000 * this.ticksPerQuarter) / SLOWEST_TEMPO_US);
    if (this.tick + least > this.exactTick) this.exactTick = this.tick + least;
    const ticks = Math.round(this.exactTick) - this.tick;
    if (ticks <= 0) return;
    const us = Math.round((ms * 1000 * this.ticksPerQuarter) / ticks);
    const usPerQuarter = Math.min(SLOWEST_TEMPO_US, Math.max(1, us));
    if (this.steps.at(-1)?.usPerQuarter !== usPerQuarter) {
      this.steps.push({ tick: this.tick, ms: this.startMs + this.fileMs, usPerQuarter });
    }
    this.tick += ticks;
    this.fileMs += (ticks * usPerQuarter) / this.ticksPerQuarter / 1000;
  }
}

/** A count-in is counted in the metre of the bar that follows. */
const metreOf = (span: Span, next: Passage['next']): Metre =>
  (span.kind === 'bar' ? span.coming : next)?.bar.content.music.metre ?? COMMON_TIME;

/** When the passage begins to move: a tap may bring its first count forward before that is due. */
const startOf = ({ stretches }: Passage): number | null => {
  for (const { fromMs, toMs, tempo } of stretches) {
    const ms = Math.max(fromMs, tempo.fromMs);
    if (ms < toMs) return ms;
  }
  return null;
};

/** Time in which nothing is played, after a stop that was taken back: in quarters of half a second. */
const GAP_QUARTER_MS = 500;

/**
 * The take as ticks: bars have the lengths that are written, the tempo follows the take, changes of tempo in steps. A
 * hold is a slow rest of its bar. Null where nothing is played by `untilMs`.
 * @param passages those of the take from its start on
 */
export const tickMap = (
  passages: readonly Passage[],
  untilMs: number,
  ticksPerQuarter: number,
): TickMap | null => {
  const startMs = passages.map(startOf).find((ms) => ms !== null);
  if (startMs === undefined || startMs === null || startMs >= untilMs) return null;
  const axis = new Steps(startMs, ticksPerQuarter);
  const spans: SpanAt[] = [];
  let lastMs = startMs;
  for (const { span, stretches, next } of passages) {
    const [first] = stretches;
    if (!first || first.fromMs >= untilMs) continue;
    const quarters = quartersOf(metreOf(span, next));
    if (first.fromMs > lastMs + 1e-6) axis.goTo((first.fromMs - lastMs) / GAP_QUARTER_MS, first.fromMs);
    spans.push({ tick: axis.tick, span, fromPulse: Math.max(0, first.fromCount - span.zero) });
    let count = first.fromCount;
    for (const stretch of stretches) {
      for (const point of pointsOf(stretch, span.end, untilMs)) {
        axis.goTo((point.count - count) * quarters, point.ms);
        count = point.count;
        lastMs = point.ms;
      }
    }
  }
  return { steps: axis.steps, spans, endTick: axis.tick, tickAt: tickAtOf(axis.steps, ticksPerQuarter) };
};

const tickAtOf =
  (steps: readonly TempoStep[], ticksPerQuarter: number) =>
  (atMs: number): number => {
    let from = 0;
    let to = steps.length;
    while (from < to) {
      const middle = (from + to) >>> 1;
      if ((steps[middle] as TempoStep).ms <= atMs) from = middle + 1;
      else to = middle;
    }
    const step = steps[Math.max(0, from - 1)];
    if (!step) return 0;
    return Math.max(
      0,
      step.tick + Math.round(((atMs - step.ms) * 1000 * ticksPerQuarter) / step.usPerQuarter),
    );
  };
