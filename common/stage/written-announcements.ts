import type { Mark } from '../chart/bar-music.ts';
import type { RoadMark } from '../form/road.ts';
import { printKey, readKey } from '../theory/key.ts';
import { pieceIndexAt, walkToBar } from './ahead.ts';
import type { Log } from './course.ts';
import type { Moment } from './enter-bar.ts';
import { beatsTo, linesTo, type Now } from './lines-to.ts';
import type { Performance } from './perform.ts';
import type { Announcement, ComingBar } from './place.ts';
import { count } from './place-words.ts';
import { msAt } from './tempo.ts';

const FARTHEST_BARS = 16;
const FARTHEST_PHRASES = 2;

interface Words {
  readonly family: Announcement['family'];
  readonly name: string;
  readonly detail: string;
}

/** How a mark is announced; null for those that are only shown over their bar. */
const wordsOf = (mark: Mark): Words | null => {
  if (mark.kind === 'break') return { family: 'out', name: 'Break', detail: count(mark.bars, 'bar') };
  if (mark.kind === 'metre') return { family: 'feel', name: 'Metre', detail: mark.metre.text };
  if (mark.kind === 'tempo') return { family: 'feel', name: 'Tempo', detail: `${mark.bpm}` };
  if (mark.kind === 'fill') return { family: 'feel', name: 'Fill', detail: '' };
  if (mark.kind !== 'key') return null;
  const key = readKey(mark.key);
  return { family: 'more', name: 'Key', detail: `concert ${key ? printKey(key) : mark.key}` };
};

const isForBar = ({ pass, mark }: RoadMark, bar: ComingBar): boolean => {
  // Whether a break acts was settled when the bar was walked: it may lie within another.
  if (mark.kind === 'break' && bar.out !== 'hit') return false;
  if (pass === undefined || pass === bar.place.pass) return true;
  if (pass !== 'last') return false;
  return mark.kind === 'break' || (typeof bar.passes === 'number' && bar.place.pass >= bar.passes);
};

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
    found = { ms: msAt(tempo, count), count };
  }
  return found;
};

const announce = (
  performance: Performance,
  now: Now,
  bar: ComingBar,
  kind: string,
  words: Words,
  { id, atPulse, tMs }: { id: string; atPulse: number; tMs: number },
): Announcement | null => {
  const at = momentOf(performance, bar, atPulse);
  if (!at || at.ms <= tMs) return null;
  const target = { bar: bar.index, count: at.count };
  return {
    id,
    kind,
    ...words,
    written: true,
    landsMs: at.ms,
    landsAt: { ...bar.place, pulse: atPulse },
    barsToGo: linesTo(now, target),
    beatsToGo: beatsTo(now, target),
    landed: false,
    canTakeBack: false,
  };
};

const inBar = (performance: Performance, now: Now, bar: ComingBar, tMs: number): Announcement[] => {
  const found: (Announcement | null)[] = [];
  const { tag } = bar.leg;
  // A called tag announces itself.
  if (tag && bar.place.pass === 1 && bar.place.barIndex === 0 && !bar.leg.id.startsWith('tag:')) {
    const detail = `last ${bar.leg.bars.length}, ${count(tag.timesInAll, 'time')}`;
    const words: Words = { family: 'more', name: 'Tag', detail };
    found.push(
      announce(performance, now, bar, 'tag', words, { id: `written:${bar.index}:tag`, atPulse: 0, tMs }),
    );
  }
  bar.bar.marks.forEach((written, i) => {
    const words = wordsOf(written.mark);
    if (!words || !isForBar(written, bar)) return;
    // A break begins with its bar, wherever in the bar it is written.
    const atPulse = written.mark.kind === 'break' ? 0 : written.atPulse;
    const id = `written:${bar.index}:${i}`;
    found.push(announce(performance, now, bar, written.mark.kind, words, { id, atPulse, tMs }));
  });
  return found.filter((one) => one !== null);
};

/** The marks of the chart that come within the next two phrases, at most 16 bars. */
export const writtenAnnouncements = (performance: Performance, now: Now, tMs: number): Announcement[] => {
  const { span } = now;
  if (!span) return [];
  const first = span.kind === 'bar' ? span.coming.index : span.nextBar;
  walkToBar(performance, first + FARTHEST_BARS);
  const found: Announcement[] = [];
  let phrases = 0;
  for (let i = first; i <= first + FARTHEST_BARS && phrases < FARTHEST_PHRASES + 1; i += 1) {
    const bar = performance.run.log.bars[i];
    if (!bar) break;
    found.push(...inBar(performance, now, bar, tMs));
    if (bar.bar.phraseEnd || bar.place.barIndex === bar.passBars - 1) phrases += 1;
  }
  return found;
};
