import { useEffect, useMemo } from 'react';
import type { BarMusic } from '../../../common/chart/bar-music.ts';
import type { Road } from '../../../common/form/road.ts';
import type { HelpKind } from '../../../common/help/help.ts';
import { helpLine } from '../../engraving/help-line.ts';
import { HelpRow } from '../../engraving/help-row.tsx';
import { useNoteNames } from '../../engraving/note-names.ts';
import { useObservable } from '../../state/observable.ts';
import { pinnedShapes, tabletHelp } from '../../storage/tablet-help.ts';
import { chordsInMostBars, needsLine, PHONE_PX } from './chords-in-bars.ts';
import type { Help, HelpRoom } from './help-on-stand.ts';
import { helpWish, stringsOf, tuningName } from './help-wish.ts';
import { useHelp } from './use-help.ts';
import { useNeck } from './use-neck.ts';
import './help.css';

export interface HelpFinderProps {
  /** Id of the chart. */
  readonly chart: string;
  readonly road: Road;
  readonly music: ReadonlyMap<string, BarMusic> | null;
  readonly chartKey: string;
  /** Instrument id. */
  readonly part: string;
  /** Semitones of the reader's instrument. */
  readonly semitones: number;
  /** Notes that the band pinned to the bars, by bar id. */
  readonly notes: ReadonlyMap<string, readonly string[]>;
  /** Told what stands under the chords, and again whenever that is something else. */
  readonly onHelp: (help: Help | null) => void;
}

const ROOMS: Readonly<Partial<Record<HelpKind, HelpRoom>>> = {
  shapes: 'diagram',
  voicings: 'diagram',
  guides: 'two',
  words: 'two',
};

/** A diagram or a pair of notes that can be read, and its part of the edges of its bar. */
const HELP_PX = 104;
/** On a phone drawings of two chords are narrow already. */
const CROWDED_ON_PHONE = 2;

/** Finds what stands under the chords of a tune; draws nothing itself. */
export const HelpFinder = (props: HelpFinderProps) => {
  const { chart, road, music, chartKey, part, semitones, notes, onHelp } = props;
  const settings = useObservable(tabletHelp);
  const names = useNoteNames();
  const pins = useObservable(pinnedShapes.of(chart, tuningName(stringsOf(settings, part, names))));
  const needed = useMemo(() => {
    const wish = helpWish(settings, part, names, notes, pins);
    return wish && { road, music, wish, chartKey, semitones };
  }, [settings, part, names, notes, pins, road, music, chartKey, semitones]);
  const find = useHelp(needed);
  const neck = useNeck(part);
  const kind = needed?.wish.kind;
  const help = useMemo((): Help | null => {
    if (find === null || kind === undefined) return null;
    const isForChord = kind !== 'words' && kind !== 'form';
    const isWide = kind in ROOMS && kind !== 'words';
    return {
      room: ROOMS[kind] ?? 'one',
      leastBarPx: isWide ? HELP_PX * chordsInMostBars(road.legs.flatMap(({ bars }) => bars)) : 0,
      needsLine: ({ bar }) => isForChord && needsLine(bar, window.innerWidth),
      under: (bars, musics, at, readAt) => {
        const helped = bars.map((bar, index) => ({
          music: musics[index] ?? bar.bar.content.music,
          helps: find(bar) ?? [],
        }));
        const own = helped[at];
        if (own === undefined) return null;
        const crowded = window.innerWidth < PHONE_PX ? CROWDED_ON_PHONE : undefined;
        const line = helpLine(helped, readAt(0), names, crowded);
        return <HelpRow {...own} read={readAt(at)} neck={neck} line={line} at={at} />;
      },
    };
  }, [find, kind, neck, names, road]);
  useEffect(() => {
    onHelp(help);
  }, [help, onHelp]);
  useEffect(() => () => onHelp(null), [onHelp]);
  return null;
};
