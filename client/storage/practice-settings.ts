import { type KeptSettings, keptSettings } from './kept-settings.ts';
import type { TextStore } from './stored-json.ts';

/** How a voice of the practice band is wished. */
export interface PracticePart {
  /** 0–1. */
  readonly volume: number;
  readonly muted: boolean;
  readonly solo: boolean;
}

export const PRACTICE_PARTS = ['click', 'bass', 'comping', 'drums'] as const;
export type PracticePartName = (typeof PRACTICE_PARTS)[number];

/** How the practice band of this tablet plays. */
export interface PracticeSettings {
  /** 0–1; begins low. */
  readonly master: number;
  readonly parts: Readonly<Record<PracticePartName, PracticePart>>;
  readonly clickBeats: 'all' | 'two and four';
  readonly clickParts: 1 | 2 | 3 | 4;
  readonly clickInBreaks: boolean;
  readonly fills: boolean;
  /** As typed, `1 2& 4`; '' is as the feel has it. */
  readonly comping: string;
  /** With what notes chords are comped: shapes of a guitar, voicings of keys; '' is as the player's own part has it. */
  readonly compingAs: CompingAs;
  /** First eighth against the second; null is as the feel and the tempo have it. */
  readonly swing: number | null;
  /** By how much each chorus is played higher than the one before: not at all, a half step, round the cycle of fifths. */
  readonly cycleSemitones: 0 | 1 | 5;
  /** By a tap calibration: how much later than the browser says a sound is heard, ms. */
  readonly laterMs: number;
}

export const COMPING_AS = ['', 'shapes', 'shells', 'rootless', 'twoHands'] as const;
export type CompingAs = (typeof COMPING_AS)[number];

export type PracticeSettingsStore = KeptSettings<PracticeSettings>;

/** Bounds of `laterMs`. */
export const SOONEST_MS = -200;
export const LATEST_MS = 500;

const NAME = 'tillcue.practice';

const VOLUMES: Readonly<Record<PracticePartName, number>> = {
  click: 0.5,
  bass: 0.8,
  comping: 0.6,
  drums: 0.7,
};
const FIRST_MASTER = 0.3;

const record = (value: unknown): Record<string, unknown> =>
  typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : {};

const within = (value: unknown, least: number, most: number, otherwise: number): number =>
  typeof value === 'number' && value >= least && value <= most ? value : otherwise;

const settingsFrom = (value: unknown): PracticeSettings => {
  const kept = record(value);
  const parts = record(kept['parts']);
  const part = (name: PracticePartName): PracticePart => {
    const one = record(parts[name]);
    return {
      volume: within(one['volume'], 0, 1, VOLUMES[name]),
      muted: one['muted'] === true,
      solo: one['solo'] === true,
    };
  };
  const clickParts = ([1, 2, 3, 4] as const).find((count) => count === kept['clickParts']);
  return {
    // Whatever it was last time, it never begins louder than this.
    master: Math.min(FIRST_MASTER, within(kept['master'], 0, 1, FIRST_MASTER)),
    parts: { click: part('click'), bass: part('bass'), comping: part('comping'), drums: part('drums') },
    clickBeats: kept['clickBeats'] === 'two and four' ? 'two and four' : 'all',
    clickParts: clickParts ?? 1,
    clickInBreaks: kept['clickInBreaks'] === true,
    fills: kept['fills'] !== false,
    comping: typeof kept['comping'] === 'string' ? kept['comping'] : '',
    compingAs: COMPING_AS.find((one) => one === kept['compingAs']) ?? '',
    swing: typeof kept['swing'] === 'number' ? within(kept['swing'], 1, 4, 2) : null,
    cycleSemitones: ([1, 5] as const).find((semitones) => semitones === kept['cycleSemitones']) ?? 0,
    laterMs: within(kept['laterMs'], SOONEST_MS, LATEST_MS, 0),
  };
};

/** The settings kept in that store; what is missing or makes no sense is as at first. */
export const openPracticeSettings = (store: TextStore): PracticeSettingsStore =>
  keptSettings(NAME, settingsFrom, store);
