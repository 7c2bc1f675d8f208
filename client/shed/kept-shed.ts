import { readTake } from '../../common/document/stage-document.ts';
import type { Take } from '../../common/stage/cue.ts';
import { perform } from '../../common/stage/perform.ts';
import { readJson, type TextStore, writeJson } from '../storage/stored-json.ts';

export const ROOMS = ['study', 'stand', 'podium', 'drill', 'sound'] as const;
export type Room = (typeof ROOMS)[number];

/** What a page leaves for the one that is loaded in its place. */
export interface KeptShed {
  /** Id of the chart. */
  readonly chart: string;
  readonly room: Room;
  /** What was on the stage of one's own; null where nothing worth keeping was. */
  readonly take: Take | null;
  /** What ends with the page: sound that a browser gives after a touch only, and a round of a drill. */
  readonly lost: 'sound' | 'round' | null;
  /** Time of the stage at which it was left, ms. */
  readonly leftAtMs: number;
}

const NAME = 'tillcue.shed';

/** Whoever comes back later than this begins anew, ms. */
const LONGEST_AWAY_MS = 10 * 60_000;

/** The Shed as this tab left it; null where it was left otherwise than by loading the page anew, or long ago. */
export const readKeptShed = (store: TextStore, chart: string, nowMs: number): KeptShed | null => {
  const kept = readJson(store, NAME);
  if (typeof kept !== 'object' || kept === null) return null;
  const { room, take, lost, leftAtMs, ...others } = kept as Record<string, unknown>;
  const isOfChart = others['chart'] === chart && typeof leftAtMs === 'number';
  if (!isOfChart || nowMs < leftAtMs || nowMs - leftAtMs > LONGEST_AWAY_MS) return null;
  return {
    chart,
    room: ROOMS.find((one) => one === room) ?? 'study',
    take: playable(readTake(take)),
    lost: lost === 'sound' || lost === 'round' ? lost : null,
    leftAtMs,
  };
};

/** Written down by another version of the page it may be none that can be played: then the tune begins as it is written. */
const playable = (take: Take | null): Take | null => {
  try {
    if (take !== null) perform(take);
    return take;
  } catch (error) {
    console.warn('What was on the stage of the Shed cannot be played any more.', error);
    return null;
  }
};

export const keepShed = (store: TextStore, shed: KeptShed): void => {
  writeJson(store, NAME, shed);
};

/** Whoever leaves the Shed for another page begins anew. */
export const forgetShed = (store: TextStore): void => store.removeItem(NAME);
