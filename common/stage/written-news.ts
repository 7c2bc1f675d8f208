import type { Mark } from '../chart/bar-music.ts';
import { count } from '../form/count.ts';
import type { RoadMark } from '../form/road.ts';
import { soundingKeyWords } from './key-words.ts';
import type { Announcement, ComingBar } from './place.ts';
import { tradeName, turnsWords } from './trading.ts';

/** Something that the chart says in a bar and that everyone must know before it comes. */
export interface WrittenNews extends Pick<Announcement, 'id' | 'kind' | 'family' | 'name' | 'detail'> {
  readonly atPulse: number;
  /** The tempo that begins there; 'found': as it turns out there, for a rit., an accel. and a tempo. */
  readonly bpm?: number | 'found';
}

type Words = Pick<Announcement, 'family' | 'name' | 'detail'>;

const keyWords = (written: string, semitones: number): Words => ({
  family: 'more',
  name: 'Key',
  detail: soundingKeyWords(written, semitones),
});

const metreWords = (text: string): Words => ({ family: 'feel', name: 'Metre', detail: text });

const capital = (words: string): string => words.slice(0, 1).toUpperCase() + words.slice(1);

/** How a mark is announced; null for those that are only shown over their bar. */
const wordsOf = (mark: Mark): Words | null => {
  if (mark.kind === 'break') return { family: 'out', name: 'Break', detail: count(mark.bars, 'bar') };
  if (mark.kind === 'tempo') return { family: 'feel', name: 'Tempo', detail: `${mark.bpm}` };
  if (mark.kind === 'rit') return { family: 'feel', name: 'Rit.', detail: '' };
  if (mark.kind === 'accel') return { family: 'feel', name: 'Accel.', detail: '' };
  if (mark.kind === 'aTempo') return { family: 'feel', name: 'A tempo', detail: '' };
  if (mark.kind === 'hold') return { family: 'out', name: 'Hold', detail: '' };
  if (mark.kind === 'onCue') return { family: 'out', name: 'On cue', detail: 'hold' };
  if (mark.kind === 'stopTime') return { family: 'out', name: 'Stop-time', detail: '' };
  if (mark.kind === 'feel') return { family: 'feel', name: capital(mark.feel), detail: '' };
  if (mark.kind === 'dynamic') return { family: 'feel', name: 'Dynamics', detail: mark.sign };
  if (mark.kind === 'fill') return { family: 'feel', name: 'Fill', detail: '' };
  return null;
};

/** In the last pass these act as soon as the last chorus is called. */
const FOR_LAST: readonly Mark['kind'][] = ['break', 'stopTime', 'feel', 'dynamic'];

const isForBar = ({ pass, mark }: RoadMark, bar: ComingBar): boolean => {
  // Whether these act was settled when the bar was walked: they may lie within what is in force already.
  if (mark.kind === 'break' && bar.out !== 'hit') return false;
  if (pass === undefined || pass === bar.place.pass) return true;
  if (pass !== 'last') return false;
  return FOR_LAST.includes(mark.kind) || (typeof bar.passes === 'number' && bar.place.pass >= bar.passes);
};

const bpmOf = (mark: Mark): Pick<WrittenNews, 'bpm'> => {
  if (mark.kind === 'tempo') return { bpm: mark.bpm };
  const isFound = mark.kind === 'rit' || mark.kind === 'accel' || mark.kind === 'aTempo';
  return isFound ? { bpm: 'found' } : {};
};

/** A stop-time or a feel that the band is not in already. */
const isNewManner = (mark: Mark, bar: ComingBar, before: ComingBar | undefined): boolean => {
  if (mark.kind === 'stopTime') return bar.stopTime === true && before?.stopTime !== true;
  return mark.kind !== 'feel' || (bar.feel === mark.feel && before?.feel !== mark.feel);
};

/** What acts from the beginning of its bar, wherever in the bar it is written. */
const FROM_BAR: readonly Mark['kind'][] = ['break', 'stopTime', 'feel'];

const marksNews = (bar: ComingBar, before: ComingBar | undefined): WrittenNews[] =>
  bar.bar.marks.flatMap((written, i) => {
    const { mark } = written;
    const words = isForBar(written, bar) && isNewManner(mark, bar, before) ? wordsOf(mark) : null;
    if (!words) return [];
    const atPulse = FROM_BAR.includes(mark.kind) ? 0 : written.atPulse;
    return [{ id: `written:${bar.index}:${i}`, kind: mark.kind, ...words, atPulse, ...bpmOf(mark) }];
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
const changeNews = (bar: ComingBar, before: ComingBar): WrittenNews[] =>
  (['metre', 'key'] as const).flatMap((kind) => {
    const now = inForce(bar, kind);
    if (now === '' || now === inForce(before, kind)) return [];
    const words = kind === 'key' ? keyWords(now, bar.semitones ?? 0) : metreWords(now);
    return [{ id: `written:${bar.index}:${kind}`, kind, ...words, atPulse: 0 }];
  });

const tagNews = ({ index, leg, place }: ComingBar): WrittenNews[] => {
  // A tag that was called announces itself.
  if (!leg.tag || place.pass > 1 || place.barIndex > 0 || leg.id.startsWith('tag:')) return [];
  const detail = `last ${leg.bars.length}, ${count(leg.tag.timesInAll, 'time')}`;
  return [{ id: `written:${index}:tag`, kind: 'tag', family: 'more', name: 'Tag', detail, atPulse: 0 }];
};

const tradeNews = (bar: ComingBar, before: ComingBar | undefined): WrittenNews[] => {
  const { index, leg, turn, passBars } = bar;
  // Where passes of the same leg are traded, that was called and announces itself.
  if (!turn || leg.trade === undefined || before?.leg.id === leg.id) return [];
  const fall = turnsWords(leg.trade, passBars);
  const detail = `${turn.now}, then ${turn.next}${fall === '' ? '' : ` · ${fall}`}`;
  return [
    {
      id: `written:${index}:trade`,
      kind: 'trade',
      family: 'move',
      name: tradeName(leg.trade),
      detail,
      atPulse: 0,
    },
  ];
};

/**
 * What a bar brings that is written in the chart: breaks, fills, tempos, feels, a tag, trading, another metre or key
 * than in the bar played before it.
 */
export const writtenNews = (bar: ComingBar, before: ComingBar | undefined): readonly WrittenNews[] => [
  ...tagNews(bar),
  ...tradeNews(bar, before),
  ...(before ? changeNews(bar, before) : []),
  ...marksNews(bar, before),
];
