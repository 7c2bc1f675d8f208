import { pieceIndexAt, walkToBar } from './ahead.ts';
import type { Log } from './course.ts';
import type { Moment } from './enter-bar.ts';
import { beatsTo, linesTo, type Now } from './lines-to.ts';
import type { Performance } from './perform.ts';
import type { Announcement, ComingBar } from './place.ts';
import { bpmAt, msAt } from './tempo.ts';
import { type WrittenNews, writtenNews } from './written-news.ts';

const FARTHEST_BARS = 16;
const FARTHEST_PHRASES = 2;

/** Index in the log of the piece with which the bar begins; −1 where it is not there. */
const firstPieceOf = (log: Log, bar: ComingBar): number => {
  for (let i = pieceIndexAt(log, bar.startMs); i >= 0; i -= 1) {
    const span = log.pieces[i]?.span;
    const before = log.pieces[i - 1]?.span;
    if (span?.kind === 'bar' && span.coming === bar && before !== span) return i;
    if (span?.kind === 'bar' && span.coming.index < bar.index) return -1;
  }
  return -1;
};

/** When a pulse of a bar comes, and its count: of several tempos in the bar, the last that has begun by then. */
const momentOf = ({ run }: Performance, bar: ComingBar, pulse: number): Moment | null => {
  const { pieces } = run.log;
  let found: Moment | null = null;
  const first = firstPieceOf(run.log, bar);
  for (let i = first; first >= 0 && i < pieces.length; i += 1) {
    const { span, tempo } = pieces[i] ?? {};
    if (span?.kind !== 'bar' || span.coming !== bar || !tempo) break;
    const count = span.zero + pulse;
    if (found && tempo.fromCount > count) break;
    // The rest of the bar is gone with the hold.
    if (tempo.still && tempo.fromCount < count) return null;
    found = { ms: msAt(tempo, count), count };
  }
  return found;
};

/** The band goes at this tempo already when the mark comes. */
const isInForce = ({ run }: Performance, bpm: number, atMs: number): boolean => {
  const { pieces } = run.log;
  let i = pieceIndexAt(run.log, atMs);
  while (i >= 0 && (pieces[i]?.fromMs ?? 0) >= atMs) i -= 1;
  const tempo = pieces[i]?.tempo;
  return tempo !== undefined && tempo !== null && bpmAt(tempo, atMs) === bpm;
};

const announce = (
  performance: Performance,
  now: Now,
  bar: ComingBar,
  { id, kind, family, name, detail, atPulse, bpm }: WrittenNews,
): Announcement | null => {
  const at = momentOf(performance, bar, atPulse);
  if (!at || (bpm !== undefined && isInForce(performance, bpm, at.ms))) return null;
  const target = { bar: bar.index, ...at };
  const landed = at.ms <= now.ms;
  return {
    id,
    kind,
    family,
    name,
    detail,
    written: true,
    landsMs: at.ms,
    landsAt: { ...bar.place, pulse: atPulse },
    barsToGo: landed ? 0 : linesTo(now, target),
    beatsToGo: landed ? 0 : beatsTo(now, target),
    landed,
    canTakeBack: false,
  };
};

/**
 * What the chart says within the phrase that is on and the next two, at most 16 bars on, and what has begun
 * within the last beat.
 */
export const writtenAnnouncements = (performance: Performance, now: Now): Announcement[] => {
  const { span } = now;
  if (!span) return [];
  const first = span.kind === 'bar' ? span.coming.index : span.nextBar;
  walkToBar(performance, first + FARTHEST_BARS);
  const { bars } = performance.run.log;
  const found: Announcement[] = [];
  let phrases = 0;
  // From the bar before: its last beat may be the one in which something began.
  for (let i = Math.max(0, first - 1); i <= first + FARTHEST_BARS && phrases <= FARTHEST_PHRASES; i += 1) {
    const bar = bars[i];
    if (!bar) break;
    for (const news of writtenNews(bar, bars[i - 1], performance.take.semitones ?? 0)) {
      const one = announce(performance, now, bar, news);
      if (one && one.landsMs > now.ms - now.pulseMs) found.push(one);
    }
    const phraseEnds = bar.bar.phraseEnd || bar.place.barIndex === bar.passBars - 1;
    if (i >= first && phraseEnds) phrases += 1;
  }
  return found;
};
