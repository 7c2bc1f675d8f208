import { useEffect, useMemo } from 'react';
import type { BarMusic } from '../../../common/chart/bar-music.ts';
import type { Road } from '../../../common/form/road.ts';
import type { HelpKind } from '../../../common/help/help.ts';
import { HelpRow } from '../../engraving/help-row.tsx';
import { useNoteNames } from '../../engraving/note-names.ts';
import { useObservable } from '../../state/observable.ts';
import { pinnedShapes, tabletHelp } from '../../storage/tablet-help.ts';
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
/** Bars with more chords than nine in ten have are not many enough to make all lines short. */
const MOST = 0.9;

/** How many chords are struck in a bar, but for a few that have more. */
const chordsInMostBars = ({ legs }: Road): number => {
  const counts = legs
    .flatMap(({ bars }) =>
      bars.map(({ content }) => content.music.cells.filter(({ kind }) => kind === 'chord').length),
    )
    .sort((one, other) => one - other);
  return Math.max(1, counts[Math.ceil(counts.length * MOST) - 1] ?? 1);
};

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
    return {
      room: ROOMS[kind] ?? 'one',
      leastBarPx: kind in ROOMS && kind !== 'words' ? HELP_PX * chordsInMostBars(road) : 0,
      under: (bar, held, read) => <HelpRow music={held} read={read} helps={find(bar) ?? []} neck={neck} />,
    };
  }, [find, kind, neck, road]);
  useEffect(() => {
    onHelp(help);
  }, [help, onHelp]);
  useEffect(() => () => onHelp(null), [onHelp]);
  return null;
};
