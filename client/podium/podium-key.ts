import type { Road } from '../../common/form/road.ts';
import type { Cue } from '../../common/stage/cue.ts';
import type { Announcement } from '../../common/stage/place.ts';
import type { TradeSignName } from '../engraving/trade-sign.tsx';
import type { PodiumSettings } from '../storage/podium-settings.ts';
import type { Stretch } from './letters.ts';

/** The three columns of the podium: a key stands where its cue lands. */
export type Column = 'now' | 'phrase' | 'chorus';

/** The screens of keys, each named by what it holds. */
export type PadPage = 'form' | 'feel' | 'solos' | 'spot';

/** One thing that a key can call. */
export interface Face {
  readonly name: string;
  /** What it does, in few words. */
  readonly detail: string;
  readonly family: Announcement['family'];
  /** A sentence where there is nothing to call: why not. */
  readonly cue: Cue | string;
  /** The sign on the key, where its cue has several. */
  readonly sign?: TradeSignName;
}

/** A key in its place. Of several faces (release, hold) it shows the first that makes sense now. */
export interface PodiumKey {
  readonly id: string;
  readonly page: PadPage;
  readonly column: Column;
  readonly faces: readonly [Face, ...Face[]];
}

/** What the keys are about at this moment. */
export interface KeyMatter {
  readonly settings: PodiumSettings;
  /** The road of the chart as edited meanwhile, null where it is the one being played. */
  readonly edited: Road | null;
  /** The tempo in force and the one that the chart asks for, pulses a minute. */
  readonly bpm: number;
  readonly writtenBpm: number;
  /** Who trades. */
  readonly traders: readonly string[];
  /** What is looped where nobody chose anything else: the letter being played; null where nothing is. */
  readonly stretch: (Stretch & { readonly name: string }) | null;
  /** The change a half step up and down: "E♭ to E"; '' where no key is known. */
  readonly upWords: string;
  readonly downWords: string;
  /** Name of the leg that follows; '' after the last. */
  readonly legAfter: string;
}

export const face = (
  family: Face['family'],
  name: string,
  detail: string,
  cue: Cue | string,
  sign?: TradeSignName,
): Face => ({ name, detail, family, cue, ...(sign === undefined ? {} : { sign }) });

/** The keys of one column, by their ids, in their places. */
export const column = (
  page: PadPage,
  at: Column,
  keys: Readonly<Record<string, PodiumKey['faces']>>,
): readonly PodiumKey[] => Object.entries(keys).map(([id, faces]) => ({ id, page, column: at, faces }));
