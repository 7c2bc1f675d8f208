import type { Metre } from '../chart/bar-music.ts';
import type { BarSpan } from '../stage/course.ts';
import { roadAt } from '../stage/in-force.ts';
import { bpmAtCount, mannersUntil, momentOf, type Passage } from '../stage/passages.ts';
import type { Performance } from '../stage/perform.ts';
import type { ComingBar } from '../stage/place.ts';
import type { BandSettings } from './band-settings.ts';
import { type Beat, beatsOf, type Cell, cellsOf, eighthOf } from './beats.ts';
import { type Change, changeAt } from './changes.ts';
import { playedHits } from './played-hits.ts';
import { type Playing, playingBy } from './style.ts';
import { swingRatio, swung } from './swing.ts';

/** A bar as it is played: everything that its parts have to know of it. */
export interface BarFrame {
  readonly passage: Pick<Passage, 'stretches' | 'next'>;
  readonly coming: ComingBar;
  readonly metre: Metre;
  /** Count of its pulse 0. */
  readonly zero: number;
  readonly pulses: number;
  readonly changes: readonly Change[];
  readonly playing: Playing;
  /** As the feel has them. */
  readonly beats: readonly Beat[];
  readonly cells: readonly Cell[];
  /** See `playedHits`. */
  readonly hits: readonly number[] | null;
  /** Length of a beat where the bar begins, in ms. */
  readonly beatMs: number;
  /** When a straight place in the bar is played, swung; null where it is not reached, or passed over. */
  readonly momentAt: (pulse: number) => number | null;
  /** The count of a straight place, swung. */
  readonly countAt: (pulse: number) => number;
}

/** Pulses of a beat whose halves are swung; 0 where nothing is. */
const swungPulses = ({ compound, lower }: Metre, { speed }: Playing): number => {
  if (compound || lower > 4) return 0;
  return (lower / 4) * (speed === 'double' ? 0.5 : 1);
};

const ratioAt = ({ style }: Playing, swing: number | null, beatsPerMinute: number): number => {
  if (swing !== null) return Math.min(4, Math.max(1, swing));
  return style.swing === 'by tempo' ? swingRatio(beatsPerMinute) : style.swing;
};

export const barFrame = (
  performance: Performance,
  span: BarSpan,
  passage: Pick<Passage, 'stretches' | 'next'>,
  { changes, feel, swing }: BandSettings,
): BarFrame => {
  const { coming, zero } = span;
  const { metre } = coming.bar.content.music;
  const { pulses } = coming.bar;
  const fromMs = passage.stretches[0]?.fromMs ?? coming.startMs;
  const playing = playingBy(feel, mannersUntil(performance, fromMs));
  const beats = beatsOf(metre, pulses, playing.speed);
  const unit = swungPulses(metre, playing);
  const countAt = (pulse: number): number => {
    if (unit === 0) return zero + pulse;
    const beat = Math.floor(pulse / unit + 1e-6);
    const part = pulse / unit - beat;
    // Beats and their thirds are where they are in any feel.
    if (Math.abs(part * 3 - Math.round(part * 3)) < 1e-6) return zero + pulse;
    const beatsPerMinute = bpmAtCount(passage, zero + beat * unit) / unit;
    return zero + swung(pulse / unit, ratioAt(playing, swing, beatsPerMinute)) * unit;
  };
  const pulseMs = passage.stretches.length > 0 ? 60_000 / bpmAtCount(passage, zero) : 500;
  return {
    passage,
    coming,
    metre,
    zero,
    pulses,
    changes: changes(coming, roadAt(performance, fromMs)),
    playing,
    beats,
    cells: cellsOf(beats),
    hits: playedHits(coming),
    beatMs: pulseMs * (beats[0]?.lengthPulses ?? 1),
    countAt,
    momentAt: (pulse) => momentOf(passage, countAt(pulse)),
  };
};

/** The band rests at a place of the bar, by a rest that is written. */
export const isRest = ({ changes }: Pick<BarFrame, 'changes'>, pulse: number): boolean =>
  changeAt(changes, pulse)?.kind === 'rest';

/** The bar that follows right on this one; null where a count-in, a hold or the end comes between. */
export const followingBar = ({ passage, coming }: Pick<BarFrame, 'passage' | 'coming'>): ComingBar | null => {
  const { next, stretches } = passage;
  const endMs = stretches.at(-1)?.toMs ?? Number.NaN;
  return next && next.index === coming.index + 1 && Math.abs(next.startMs - endMs) < 1e-3 ? next : null;
};

/** Where the next bar's first chord is played early in this bar; null where it is not pushed over the line. */
export const pushOver = (frame: BarFrame, nextChanges: readonly Change[]): number | null => {
  const next = followingBar(frame);
  const first = nextChanges[0];
  if (!next || !first?.pushed || first.chord === null) return null;
  const nextHits = playedHits(next);
  if (frame.hits !== null || (nextHits !== null && !nextHits.includes(0))) return null;
  const place = frame.pulses - eighthOf(frame.metre);
  if (!(place >= 0) || isRest(frame, place) || frame.momentAt(place) === null) return null;
  return place;
};
