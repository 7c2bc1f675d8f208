import { useMemo } from 'react';
import type { BandSettings } from '../../common/band/band-settings.ts';
import { type SwitchedSound, useBandSound } from '../stand/use-band-sound.ts';
import type { Board } from '../state/board.ts';
import { useObservable } from '../state/observable.ts';
import { tabletPractice } from '../storage/tablet-practice.ts';
import { bandAsWished } from './band-as-wished.ts';
import { useCompingVoicing } from './use-comping-voicing.ts';
import type { OnStage } from './use-on-stage.ts';

export interface PracticeBand extends SwitchedSound {
  /** How it plays. */
  readonly settings: BandSettings;
}

/** The practice band that plays what is on the stage of one's own. */
export const usePracticeBand = (
  board: Pick<Board, 'stage' | 'sharedNow'>,
  { feel, music, metre }: OnStage,
): PracticeBand => {
  const wishes = useObservable(tabletPractice);
  const voicing = useCompingVoicing(board, music, wishes.compingAs);
  const settings = useMemo(
    () => ({ ...bandAsWished(feel, music, metre, wishes), voicing }),
    [feel, music, metre, wishes, voicing],
  );
  const { master, parts, laterMs } = wishes;
  const mix = useMemo(() => ({ master, parts }), [master, parts]);
  return { ...useBandSound(board, settings, mix, laterMs), settings };
};
