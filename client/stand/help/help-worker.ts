import type { BarMusic } from '../../../common/chart/bar-music.ts';
import type { Road } from '../../../common/form/road.ts';
import type { LegHelp } from '../../../common/help/help.ts';
import { type HelpWish, roadHelp } from '../../../common/help/road-help.ts';
import type { Reading } from '../../../common/theory/transpose.ts';

/** What a stand asks, off the thread on which it is drawn: shapes for a whole form take a while. */
export interface HelpQuestion {
  readonly id: number;
  readonly road: Road;
  readonly wish: HelpWish;
  readonly reading: Reading;
  readonly music: ReadonlyMap<string, BarMusic>;
}

export type HelpAnswer =
  | { readonly id: number; readonly legs: readonly LegHelp[] }
  | { readonly id: number; readonly failed: string };

const answer = ({ id, road, wish, reading, music }: HelpQuestion): HelpAnswer => {
  try {
    return { id, legs: roadHelp(road, wish, reading, music) };
  } catch (error) {
    return { id, failed: error instanceof Error ? error.message : String(error) };
  }
};

self.onmessage = ({ data }: MessageEvent<HelpQuestion>) => self.postMessage(answer(data));
