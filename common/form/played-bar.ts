import type { BarMusic, Mark, Word } from '../chart/bar-music.ts';
import type { Bar, Chart } from '../chart/chart.ts';
import type { RoadBar, RoadMark } from './road.ts';
import { unrollSection } from './unroll-section.ts';

/** A written bar at one of the places in the road at which it is played. */
export interface PlayedBar {
  readonly bar: Bar;
  readonly music: BarMusic;
  /** Bar number on paper, from 1 through the chart; 0 for a pick-up. */
  readonly written: number;
  /** Rehearsal letter, on the first full bar of a section. */
  readonly letter?: string;
  readonly phraseEnd: boolean;
  /** Time through the repeat around it, and of how many; absent outside repeats. */
  readonly x?: number;
  readonly ofX?: number;
}

/** The sections of a chart, ready to be played. */
export interface Score {
  readonly labels: readonly string[];
  /** The bars of a section in playing order, without its pick-up. @param repeats 'once' after D.S. and D.C. */
  readonly play: (section: number, repeats?: 'all' | 'once') => readonly PlayedBar[];
  readonly pickUp: (section: number) => PlayedBar | null;
}

/** @param music what each bar's text means, by bar id; a bar that is missing there or has no length is left out */
export const scoreOf = (chart: Chart, music: ReadonlyMap<string, BarMusic>): Score => {
  let nextNumber = 1;
  const sections = chart.sections.map((section) => {
    let letter = section.label;
    return section.bars.map((bar, index): PlayedBar | null => {
      const meaning = music.get(bar.id);
      if (!meaning || !(meaning.pulses > 0)) return null;
      const isPickUp = index === 0 && meaning.pickUp;
      const isLast = index === section.bars.length - 1;
      const played = {
        bar,
        music: meaning,
        written: isPickUp ? 0 : nextNumber,
        phraseEnd: !isPickUp && (isLast || bar.lineEnd || bar.right !== ''),
        ...(letter === '' || isPickUp ? {} : { letter }),
      };
      if (!isPickUp) {
        nextNumber += tacetBars(meaning);
        letter = '';
      }
      return played;
    });
  });
  return {
    labels: chart.sections.map(({ label }) => label),
    play: (section, repeats = 'all') =>
      unrollSection(chart.sections[section]?.bars ?? [], repeats).flatMap(({ bar, ...x }) => {
        const played = sections[section]?.[bar];
        return played && played.written > 0 ? [{ ...played, ...x }] : [];
      }),
    pickUp: (section) => {
      const first = sections[section]?.[0];
      return first?.written === 0 ? first : null;
    },
  };
};

/** Bars that the written bar stands for: eight for `"tacet 8"`, else one. */
const tacetBars = (music: BarMusic): number => {
  for (const { mark } of music.words) if (mark?.kind === 'tacet') return Math.max(1, mark.bars);
  return 1;
};

/** The bars as the road carries them, marks limited to the passes of this leg that they are meant for. */
export const roadBars = (played: readonly PlayedBar[], legName: string): RoadBar[] =>
  played.flatMap((bar) => {
    const first = roadBar(bar, legName);
    const bars = tacetBars(bar.music);
    if (bars === 1) return [first];
    // One cell on paper: its name and words stand over the first bar, its line ends after the last.
    return Array.from({ length: bars }, (_, index): RoadBar => {
      const { letter, ...content } = first.content;
      const isLast = index === bars - 1;
      return {
        ...first,
        phraseEnd: isLast && first.phraseEnd,
        marks: index === 0 ? first.marks : [],
        content: {
          ...content,
          ...(index === 0 && letter !== undefined ? { letter } : {}),
          written: content.written + index,
          lineEnd: isLast && content.lineEnd,
          music: index === 0 ? content.music : { ...content.music, words: [] },
        },
      };
    });
  });

export const roadBar = (played: PlayedBar, legName: string): RoadBar => ({
  id: played.bar.id,
  pulses: played.music.pulses,
  phraseEnd: played.phraseEnd,
  marks: played.music.words.flatMap((word) => {
    const mark = markHere(word, played, legName);
    return mark ? [mark] : [];
  }),
  content: {
    written: played.written,
    music: played.music,
    lineEnd: played.bar.lineEnd,
    ...(played.letter === undefined ? {} : { letter: played.letter }),
  },
});

/** The word's mark if it is meant for this time through and this leg; else null. */
const markHere = ({ mark, reach, atPulse }: Word, played: PlayedBar, legName: string): RoadMark | null => {
  if (!mark) return null;
  if (!reach) return { mark, atPulse };
  if ('leg' in reach) return isSameName(reach.leg, legName) ? { mark, atPulse } : null;
  const wanted = 'only' in reach ? reach.only : 'last';
  if (played.x === undefined) return { mark, atPulse, pass: wanted };
  const isMeant = wanted === 'last' ? played.x === played.ofX : played.x === wanted;
  return isMeant ? { mark, atPulse } : null;
};

const isSameName = (a: string, b: string): boolean => {
  const plain = (name: string) => name.trim().replace(/\s+/g, ' ').toLowerCase();
  return plain(a) === plain(b);
};

export const hasMark = (played: PlayedBar, kind: Mark['kind']): boolean =>
  played.music.words.some(({ mark }) => mark?.kind === kind);

/** The word `"fine"` over the bar, where al Fine ends. */
export const hasFine = (played: PlayedBar): boolean =>
  played.music.words.some(({ text }) => text.trim().toLowerCase() === 'fine');
