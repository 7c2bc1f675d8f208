import type { ReactNode } from 'react';
import type { BarMusic } from '../../../common/chart/bar-music.ts';
import type { ComingBar } from '../../../common/stage/place.ts';
import type { HelpedBar } from './find-help.ts';

/** How high what stands under the chords is: a diagram, two lines of notes, or one line. */
export type HelpRoom = 'diagram' | 'two' | 'one';

/** What stands under the chords of a stand. A new object each time that it shows something else. */
export interface Help {
  readonly room: HelpRoom;
  /** Width that a bar must have for it to be read, px. */
  readonly leastBarPx: number;
  /** Of this bar nothing could be read beside another one. */
  readonly needsLine: (bar: ComingBar) => boolean;
  /**
   * What stands under the chords of a bar of a line.
   * @param at index of the bar
   * @param readAt how chords are read in the bar of an index
   */
  readonly under: (
    bars: readonly HelpedBar[],
    musics: readonly BarMusic[],
    at: number,
    readAt: (at: number) => (symbol: string) => string,
  ) => ReactNode;
}
