import { type SpottedTune, useLostSpots } from '../stand/use-lost-spots.ts';
import { useBoard } from '../state/board-context.tsx';
import { useObservable } from '../state/observable.ts';
import { tabletSettings } from '../storage/tablet-settings.ts';
import type { PodiumMoment } from './podium-moment.ts';

/** The lost spot that comes next, in few words; null where there is none, or they are switched off on this tablet. */
export const useLostWords = (moment: PodiumMoment, tune: Omit<SpottedTune, 'road'>): string | null => {
  const board = useBoard();
  const { lostWords } = useObservable(tabletSettings);
  const { follower, nowMs, road } = moment;
  const found = useLostSpots(board.link, { ...tune, road });
  return lostWords && found !== null ? (found.said(follower.source, nowMs)?.announce ?? null) : null;
};
