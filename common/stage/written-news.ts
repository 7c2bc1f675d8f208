import type { Mark } from '../chart/bar-music.ts';
import type { RoadMark } from '../form/road.ts';
import { printKey, readKey } from '../theory/key.ts';
import { readingFor, transposeKey } from '../theory/transpose.ts';
import type { Announcement, ComingBar } from './place.ts';
import { count } from './place-words.ts';

/** Something that the chart says in a bar and that everyone must know before it comes. */
export interface WrittenNews extends Pick<Announcement, 'id' | 'kind' | 'family' | 'name' | 'detail'> {
  readonly atPulse: number;
  /** Of a tempo. */
  readonly bpm?: number;
}

type Words = Pick<Announcement, 'family' | 'name' | 'detail'>;

/** The key as it sounds, in words: "concert G major". */
const keyWords = (written: string, semitones: number): Words => {
  const key = readKey(written);
  const sounding = key && semitones !== 0 ? transposeKey(key, readingFor(key, semitones)) : key;
  return { family: 'more', name: 'Key', detail: `concert ${sounding ? printKey(sounding) : written}` };
};

const metreWords = (text: string): Words => ({ family: 'feel', name: 'Metre', detail: text });

/** How a mark is announced; null for those that are only shown over their bar. */
const wordsOf = (mark: Mark): Words | null => {
  if (mark.kind === 'break') return { family: 'out', name: 'Break', detail: count(mark.bars, 'bar') };
  if (mark.kind === 'tempo') return { family: 'feel', name: 'Tempo', detail: `${mark.bpm}` };
  if (mark.kind === 'hold') return { family: 'out', name: 'Hold', detail: '' };
  if (mark.kind === 'onCue') return { family: 'out', name: 'On cue', detail: 'hold' };
  if (mark.kind === 'fill') return { family: 'feel', name: 'Fill', detail: '' };
  return null;
};

const isForBar = ({ pass, mark }: RoadMark, bar: ComingBar): boolean => {
  // Whether a break acts was settled when the bar was walked: it may lie within another.
  if (mark.kind === 'break' && bar.out !== 'hit') return false;
  if (pass === undefined || pass === bar.place.pass) return true;
  if (pass !== 'last') return false;
  return mark.kind === 'break' || (typeof bar.passes === 'number' && bar.place.pass >= bar.passes);
};

const marksNews = (bar: ComingBar): WrittenNews[] =>
  bar.bar.marks.flatMap((written, i) => {
    const { mark } = written;
    const words = isForBar(written, bar) ? wordsOf(mark) : null;
    if (!words) return [];
    // A break begins with its bar, wherever in the bar it is written.
    const atPulse = mark.kind === 'break' ? 0 : written.atPulse;
    const bpm = mark.kind === 'tempo' ? { bpm: mark.bpm } : {};
    return [{ id: `written:${bar.index}:${i}`, kind: mark.kind, ...words, atPulse, ...bpm }];
  });

/** The word written for this pass, else what the bar is in by itself. */
const inForce = (bar: ComingBar, kind: 'key' | 'metre'): string => {
  const { key, metre } = bar.bar.content.music;
  for (const written of bar.bar.marks) {
    const { mark } = written;
    if (mark.kind === kind && isForBar(written, bar)) return mark.kind === 'key' ? mark.key : mark.metre.text;
  }
  return kind === 'key' ? key : metre.text;
};

/** A key or a metre that is another than in the bar before, written there or gone back to. */
const changeNews = (bar: ComingBar, before: ComingBar, semitones: number): WrittenNews[] =>
  (['metre', 'key'] as const).flatMap((kind) => {
    const now = inForce(bar, kind);
    if (now === '' || now === inForce(before, kind)) return [];
    const words = kind === 'key' ? keyWords(now, semitones) : metreWords(now);
    return [{ id: `written:${bar.index}:${kind}`, kind, ...words, atPulse: 0 }];
  });

const tagNews = ({ index, leg, place }: ComingBar): WrittenNews[] => {
  // A tag that was called announces itself.
  if (!leg.tag || place.pass > 1 || place.barIndex > 0 || leg.id.startsWith('tag:')) return [];
  const detail = `last ${leg.bars.length}, ${count(leg.tag.timesInAll, 'time')}`;
  return [{ id: `written:${index}:tag`, kind: 'tag', family: 'more', name: 'Tag', detail, atPulse: 0 }];
};

/**
 * What a bar brings that is written in the chart: breaks, fills, tempos, a tag, another metre or key than in
 * the bar played before it.
 */
export const writtenNews = (
  bar: ComingBar,
  before: ComingBar | undefined,
  semitones: number,
): readonly WrittenNews[] => [
  ...tagNews(bar),
  ...(before ? changeNews(bar, before, semitones) : []),
  ...marksNews(bar),
];
