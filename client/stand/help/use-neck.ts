import { useMemo } from 'react';
import { stringNames } from '../../../common/shapes/fretboard/string-names.ts';
import type { Neck } from '../../engraving/help-mark.tsx';
import { useNoteNames } from '../../engraving/note-names.ts';
import { useObservable } from '../../state/observable.ts';
import { tabletHelp } from '../../storage/tablet-help.ts';
import { stringsOf } from './help-wish.ts';

/** How a player of this part sees the fretboard, the strings by the names that they call notes. */
export const useNeck = (part: string): Neck => {
  const settings = useObservable(tabletHelp);
  const names = useNoteNames();
  return useMemo(
    () => ({
      leftHanded: settings.leftHanded,
      strings: stringNames(stringsOf(settings, part, names).openMidi, names),
    }),
    [settings, part, names],
  );
};
