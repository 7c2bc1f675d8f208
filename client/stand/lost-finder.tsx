import { useEffect } from 'react';
import type { LinkState } from '../state/link-state.ts';
import type { Observable } from '../state/observable.ts';
import type { FoundSpots } from './find-lost-spots.ts';
import { type SpottedTune, useLostSpots } from './use-lost-spots.ts';

interface LostFinderProps extends SpottedTune {
  readonly link: Observable<LinkState>;
  /** Told what was found, and again whenever that is something else. */
  readonly onFound: (found: FoundSpots | null) => void;
}

/** Finds the lost spots of a tune; draws nothing itself. */
export const LostFinder = ({ link, onFound, ...tune }: LostFinderProps) => {
  const found = useLostSpots(link, tune);
  useEffect(() => {
    onFound(found);
  }, [found, onFound]);
  return null;
};
