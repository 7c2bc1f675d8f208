import type { BandSettings } from '../../common/band/band-settings.ts';
import { plainBand } from '../../common/band/band-settings.ts';
import { readChangesOf } from '../../common/band/changes.ts';
import { hasCounts, readRhythmFor } from '../../common/band/rhythm.ts';
import type { BarMusic, Metre } from '../../common/chart/bar-music.ts';
import type { PracticeSettings } from '../storage/practice-settings.ts';

/** The practice band as a player wishes it. A rhythm that cannot be read is left to the feel; where it is typed it is said. */
export const bandAsWished = (
  feel: string,
  music: ReadonlyMap<string, BarMusic>,
  metre: Metre,
  { clickBeats, clickParts, clickInBreaks, fills, comping, swing }: PracticeSettings,
): BandSettings => {
  const typed = comping.trim() === '' ? null : readRhythmFor(comping, metre);
  return {
    ...plainBand(feel),
    changes: readChangesOf(music),
    click: { beats: clickBeats, parts: clickParts, accents: true, inBreaks: clickInBreaks },
    comping: typed === null || typed.problems.length > 0 || !hasCounts(typed.rhythm) ? null : typed.rhythm,
    swing,
    fills,
  };
};
