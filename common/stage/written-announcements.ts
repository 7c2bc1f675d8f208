import { pieceIndexAt, walkToBar } from './ahead.ts';
import type { Log } from './course.ts';
import { beatsTo, linesTo, type Now } from './lines-to.ts';
import type { Manner } from './manner.ts';
import type { Moment } from './moment.ts';
import type { Performance } from './perform.ts';
import type { Announcement, ComingBar } from './place.ts';
import { bpmAt, msAt, type Tempo } from './tempo.ts';
import { TOLERANCE_PULSES } from './written-marks.ts';
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

/** A pulse of a bar: when it comes, the tempo that the band has by then, and the one just before. */
interface Found extends Moment {
  /** Bar lines before it. */
  readonly line: number;
  readonly tempo: Tempo;
  readonly before: Tempo | null;
}

/** Of several tempos in the bar the last that has begun by then counts. Null where a hold has taken the pulse away. */
const find = ({ run }: Performance, bar: ComingBar, pulse: number): Found | null => {
  const { pieces } = run.log;
  const first = firstPieceOf(run.log, bar);
  let found: Found | null = null;
  let before = pieces[first - 1]?.tempo ?? null;
  for (let i = first; first >= 0 && i < pieces.length; i += 1) {
    const { span, tempo } = pieces[i] ?? {};
    if (span?.kind !== 'bar' || span.coming !== bar || !tempo) break;
    const count = span.zero + pulse;
    if (found && tempo.fromCount > count) break;
    const isEarlier = tempo.fromCount < count - TOLERANCE_PULSES;
    if (isEarlier && tempo.still) return null;
    if (isEarlier) before = tempo;
    found = { ms: msAt(tempo, count), count, line: bar.index + span.countLines, tempo, before };
  }
  return found;
};

/** The tempo that news of a tempo comes to; null where it comes to nothing, or the band goes so already. */
const comesTo = (bpm: number | 'found', kind: string, { ms, tempo, before }: Found): number | null => {
  const { ramp } = tempo;
  if (bpm === 'found' && kind !== 'aTempo' && !ramp) return null;
  const toBpm = bpm === 'found' ? (ramp?.toBpm ?? tempo.bpm) : bpm;
  return before && bpmAt(before, ms) === toBpm ? null : toBpm;
};

/** What follows the name of the news; null where there is nothing to say of it. */
const detailOf = ({ bpm, kind, detail }: WrittenNews, found: Found): string | null => {
  if (bpm === undefined) return detail;
  const toBpm = comesTo(bpm, kind, found);
  if (toBpm === null || bpm !== 'found') return toBpm === null ? null : detail;
  return `${kind === 'aTempo' ? '' : 'to '}${Math.round(toBpm)}`;
};

/** Rounding of an instant that is found through a count. */
const ROUNDING_MS = 1e-3;

const dynamicOf = (manner: Manner | undefined): string | null =>
  manner?.dynamic ?? manner?.writtenDynamic ?? null;

/** A dynamic acts that the band is not in already: none does while another is called. */
const isNewDynamic = ({ run }: Performance, { ms }: Found): boolean => {
  if (!Number.isFinite(ms)) return true;
  const { manners } = run.log;
  const before = manners.findLast(({ fromMs }) => fromMs < ms - ROUNDING_MS)?.manner;
  const after = manners.findLast(({ fromMs }) => fromMs <= ms + ROUNDING_MS)?.manner;
  return dynamicOf(after) !== dynamicOf(before);
};

const announce = (
  performance: Performance,
  now: Now,
  bar: ComingBar,
  news: WrittenNews,
): Announcement | null => {
  const { id, kind, family, name, atPulse } = news;
  const at = find(performance, bar, atPulse);
  const detail = at && detailOf(news, at);
  if (!at || detail === null) return null;
  if (kind === 'dynamic' && !isNewDynamic(performance, at)) return null;
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
    barsToGo: landed ? 0 : linesTo(now, at),
    beatsToGo: landed ? 0 : beatsTo(now, at),
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
    for (const news of writtenNews(bar, bars[i - 1])) {
      const one = announce(performance, now, bar, news);
      if (one && one.landsMs > now.ms - now.pulseMs) found.push(one);
    }
    const phraseEnds = bar.bar.phraseEnd || bar.place.barIndex === bar.passBars - 1;
    if (i >= first && phraseEnds) phrases += 1;
  }
  return found;
};
