import { useMemo } from 'react';
import { plainVoicing, type Voicing } from '../../common/band/voicing.ts';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import type { Help } from '../../common/help/help.ts';
import type { HelpWish } from '../../common/help/road-help.ts';
import { GUITAR } from '../../common/shapes/fretboard/fret-instrument.ts';
import { instrumentById } from '../../common/theory/instruments.ts';
import { useNoteNames } from '../engraving/note-names.ts';
import { helpWish, stringsOf, tuningName } from '../stand/help/help-wish.ts';
import { useHelp } from '../stand/help/use-help.ts';
import type { Board } from '../state/board.ts';
import { useObservable } from '../state/observable.ts';
import type { CompingAs } from '../storage/practice-settings.ts';
import { pinnedShapes, tabletHelp } from '../storage/tablet-help.ts';
import { tabletSettings } from '../storage/tablet-settings.ts';

const NO_NOTES: ReadonlyMap<string, readonly string[]> = new Map();
const NO_CHART = '';

/**
 * The notes with which the practice band comps: a path of least movement through the tune, found off this thread. A guitarist's
 * is the very one that stands under their chords, pins and all. Until it is found, chords are voiced plainly.
 */
export const useCompingVoicing = (
  { stage }: Pick<Board, 'stage'>,
  music: ReadonlyMap<string, BarMusic>,
  as: CompingAs,
): Voicing => {
  const { take } = useObservable(stage);
  const { part } = useObservable(tabletSettings);
  const settings = useObservable(tabletHelp);
  const names = useNoteNames();
  const tuning = tuningName(stringsOf(settings, part, names));
  const pins = useObservable(pinnedShapes.of(take?.chart ?? NO_CHART, tuning));
  const road = take?.road ?? null;
  const needed = useMemo(() => {
    const isGuitarist = instrumentById(part)?.part === 'guitar';
    const own = isGuitarist ? helpWish({ ...settings, help: 'shapes' }, part, names, NO_NOTES, pins) : null;
    const shapes: HelpWish = own ?? { kind: 'shapes', instrument: GUITAR, kinds: [] };
    const wanted = as === '' ? (isGuitarist ? 'shapes' : 'rootless') : as;
    const wish: HelpWish = wanted === 'shapes' ? shapes : { kind: 'voicings', style: wanted };
    return road && { road, music, wish, chartKey: road.key, semitones: 0 };
  }, [road, music, as, settings, part, names, pins]);
  const find = useHelp(needed);
  return useMemo(
    () =>
      (symbol, { coming, cell }) => {
        const placed = find?.(coming)?.find((one) => one.cell === cell);
        return (placed && notesOf(placed.help)) ?? plainVoicing(symbol);
      },
    [find],
  );
};

const notesOf = (help: Help): readonly number[] | null => {
  if (help.kind === 'shape') return help.shape.midi;
  return help.kind === 'voicing' ? help.voicing.keys.map(({ pitch }) => pitch) : null;
};
