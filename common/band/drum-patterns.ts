import type { Drum } from './drum-kit.ts';

/** What one drum plays in a group of beats: counts the trade's way, and how loud. */
export interface DrumLine {
  readonly drum: Drum;
  readonly counts: string;
  readonly velocity: number;
}

/**
 * A way to keep time, as a rule for any metre: what is played in two beats and what in three; every bar is made of
 * those. `bars` says it for whole bars of four beats where a pattern is longer than two.
 */
export interface DrumPattern {
  readonly two: readonly DrumLine[];
  readonly three: readonly DrumLine[];
  /** One bar of four beats, or two that take turns; played besides `two`. */
  readonly bars?: readonly (readonly DrumLine[])[];
  /** Played in a metre in which `bars` has no place. */
  readonly otherwise?: readonly DrumLine[];
}

const line = (drum: Drum, counts: string, velocity: number): DrumLine => ({ drum, counts, velocity });

/** Common practice, no source. */
export const DRUM_PATTERNS = {
  swing: {
    two: [line('ride', '1 2', 84), line('ride', '2&', 66), line('footHat', '2', 70), line('kick', '1', 34)],
    three: [
      line('ride', '1 2 3', 84),
      line('ride', '2&', 66),
      line('footHat', '2', 70),
      line('kick', '1', 46),
    ],
  },
  straight: {
    two: [
      line('closedHat', '1 2', 78),
      line('closedHat', '1& 2&', 58),
      line('kick', '1', 96),
      line('snare', '2', 98),
    ],
    three: [
      line('closedHat', '1 2 3', 78),
      line('closedHat', '1& 2& 3&', 58),
      line('kick', '1', 96),
      line('snare', '3', 98),
    ],
    bars: [[line('kick', '3&', 84)], [line('kick', '2& 3&', 84)]],
  },
  shuffle: {
    two: [
      line('ride', '1 2', 84),
      line('ride', '1& 2&', 64),
      line('kick', '1', 84),
      line('snare', '2', 96),
      line('footHat', '2', 60),
    ],
    three: [
      line('ride', '1 2 3', 84),
      line('ride', '1& 2& 3&', 64),
      line('kick', '1', 84),
      line('snare', '3', 96),
      line('footHat', '3', 60),
    ],
  },
  bossa: {
    two: [
      line('closedHat', '1 1& 2 2&', 56),
      line('kick', '1', 72),
      line('kick', '2&', 58),
      line('footHat', '2', 54),
    ],
    three: [
      line('closedHat', '1 1& 2 2& 3 3&', 56),
      line('kick', '1', 72),
      line('kick', '3&', 58),
      line('footHat', '2', 54),
    ],
    bars: [[line('sideStick', '1 2& 4', 76)], [line('sideStick', '2 3&', 76)]],
    otherwise: [line('sideStick', '1 2&', 76)],
  },
  latin: {
    two: [
      line('rideBell', '1', 78),
      line('ride', '1& 2&', 64),
      line('kick', '2&', 78),
      line('footHat', '2', 60),
    ],
    three: [
      line('rideBell', '1 3', 78),
      line('ride', '1& 2& 3&', 64),
      line('kick', '2&', 78),
      line('footHat', '2', 60),
    ],
    bars: [[line('sideStick', '1 2& 4', 78)], [line('sideStick', '2 3', 78), line('highTom', '4 4&', 70)]],
    otherwise: [line('sideStick', '2', 78)],
  },
  funk: {
    two: [
      line('closedHat', '1 1& 2 2&', 72),
      line('closedHat', '1e 1a 2e 2a', 50),
      line('kick', '1', 98),
      line('snare', '2', 100),
      line('snare', '1a 2e', 30),
    ],
    three: [
      line('closedHat', '1 1& 2 2& 3 3&', 72),
      line('closedHat', '1e 1a 2e 2a 3e 3a', 50),
      line('kick', '1 2&', 98),
      line('snare', '3', 100),
      line('snare', '2a', 30),
    ],
    bars: [[line('kick', '1& 3&', 84)], [line('kick', '2& 3a', 84)]],
  },
  ballad: {
    two: [line('stir', '1', 54), line('snare', '2', 40), line('footHat', '2', 50), line('kick', '1', 34)],
    three: [line('stir', '1', 54), line('snare', '2 3', 40), line('footHat', '2', 50), line('kick', '1', 34)],
  },
  brushes: {
    two: [
      line('stir', '1', 52),
      line('snare', '1 2', 66),
      line('snare', '2&', 50),
      line('footHat', '2', 64),
      line('kick', '1', 30),
    ],
    three: [
      line('stir', '1', 52),
      line('snare', '1 2 3', 66),
      line('snare', '2&', 50),
      line('footHat', '2', 64),
      line('kick', '1', 36),
    ],
  },
} as const satisfies Record<string, DrumPattern>;

export type DrumManner = keyof typeof DRUM_PATTERNS;

/** Fills of two beats, those with sixteenths only where a beat lasts long enough. Common practice, no source. */
export const FILLS: readonly { readonly lines: readonly DrumLine[]; readonly sixteenths: boolean }[] = [
  {
    lines: [line('snare', '1 1&', 88), line('highTom', '2', 92), line('lowTom', '2&', 96)],
    sixteenths: false,
  },
  {
    lines: [
      line('snare', '1 2&', 92),
      line('highTom', '1&', 84),
      line('midTom', '2', 88),
      line('kick', '2&', 84),
    ],
    sixteenths: false,
  },
  {
    lines: [
      line('snare', '1 1e 1& 1a', 84),
      line('highTom', '2 2e', 92),
      line('lowTom', '2& 2a', 98),
      line('kick', '2', 80),
    ],
    sixteenths: true,
  },
  {
    lines: [line('snare', '1 1a 2&', 90), line('midTom', '1&', 84), line('lowTom', '2 2a', 94)],
    sixteenths: true,
  },
];
