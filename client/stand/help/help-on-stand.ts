import type { ReactNode } from 'react';
import type { BarMusic } from '../../../common/chart/bar-music.ts';
import type { HelpedBar } from './find-help.ts';

/** How high what stands under the chords is: a diagram, two lines of notes, or one line. */
export type HelpRoom = 'diagram' | 'two' | 'one';

/** What stands under the chords of a stand. A new object each time that it shows something else. */
export interface Help {
  readonly room: HelpRoom;
  /** Width that a bar must have for it to be read, px. */
  readonly leastBarPx: number;
  readonly under: (bar: HelpedBar, music: BarMusic, read: (symbol: string) => string) => ReactNode;
}
