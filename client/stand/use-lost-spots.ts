import { useEffect, useState } from 'react';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import type { Chart } from '../../common/chart/chart.ts';
import type { LostSpotsSaid } from '../../common/document/lost-spots-said.ts';
import type { Road } from '../../common/form/road.ts';
import { useNoteNames } from '../engraving/note-names.ts';
import type { LinkState } from '../state/link-state.ts';
import { loadLater } from '../state/load-later.ts';
import type { Observable } from '../state/observable.ts';
import type { FoundSpots } from './find-lost-spots.ts';

export interface SpottedTune {
  /** The road that is played; null for a chart that is only read. */
  readonly road: Road | null;
  /** The chart as it stands now, what its bars hold and what is said of its spots; null until they are here. */
  readonly chart: Chart | null;
  readonly music: ReadonlyMap<string, BarMusic> | null;
  readonly said: LostSpotsSaid | null;
  /** By which the reader reads and the band plays higher than written. */
  readonly semitones: number;
}

/** Where a browser knows no idle time: long enough for what was drawn to stand, in ms. */
const SOON_MS = 300;
/** They are found by then even where the tablet is never idle, in ms. */
const LATEST_MS = 2000;

/** Calls back when the tablet has nothing to draw; the returned function takes it back. */
const whenIdle = (run: () => void): (() => void) => {
  if (!('requestIdleCallback' in globalThis)) {
    const timer = setTimeout(run, SOON_MS);
    return () => clearTimeout(timer);
  }
  const id = requestIdleCallback(run, { timeout: LATEST_MS });
  return () => cancelIdleCallback(id);
};

/**
 * The lost spots of a tune, found anew in an idle moment when its road, its chart or what is said of them changes; null
 * until they are found for the first time. Until then, and while they are found anew, nobody waits for them.
 */
export const useLostSpots = (link: Observable<LinkState>, tune: SpottedTune): FoundSpots | null => {
  const { road, chart, music, said, semitones } = tune;
  const names = useNoteNames();
  const [found, setFound] = useState<FoundSpots | null>(null);
  useEffect(() => {
    if (chart === null || music === null || said === null) return;
    let wanted = true;
    let stop = (): void => {};
    void loadLater(() => import('./find-lost-spots.ts'), link).then(({ findLostSpots }) => {
      if (!wanted) return;
      stop = whenIdle(() =>
        setFound(findLostSpots(road ? { road } : { chart }, semitones, { ...said, music, names })),
      );
    });
    return () => {
      wanted = false;
      stop();
    };
  }, [link, road, chart, music, said, semitones, names]);
  return found;
};
