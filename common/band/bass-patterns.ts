/** Which note of the chord is played. */
export type BassRole = 'root' | 'fifth' | 'octave' | 'approach';

export interface BassLine {
  readonly counts: string;
  readonly role: BassRole;
  readonly velocity: number;
}

/** What the bass plays in two beats and in three; the walking bass is a rule of its own. */
export interface BassPattern {
  readonly two: readonly BassLine[];
  readonly three: readonly BassLine[];
  /** How much of the time to the next note it sounds. */
  readonly held: number;
}

const line = (counts: string, role: BassRole, velocity = 84): BassLine => ({ counts, role, velocity });

/** In cells of the bar that begin with its chord the root comes first, in those after it the fifth. Common practice, no source. */
export const BASS_PATTERNS = {
  /** Halves: root and fifth. */
  two: { two: [line('1', 'root')], three: [line('1', 'root'), line('3', 'fifth', 74)], held: 0.95 },
  waltz: { two: [line('1', 'root')], three: [line('1', 'root'), line('3', 'approach', 72)], held: 0.9 },
  eighths: {
    two: [line('1 2', 'root', 88), line('1& 2&', 'root', 72)],
    three: [line('1 2 3', 'root', 88), line('1& 2& 3&', 'root', 72)],
    held: 0.85,
  },
  bossa: {
    two: [line('1', 'root'), line('2&', 'fifth', 76)],
    three: [line('1', 'root'), line('2&', 'fifth', 76)],
    held: 0.9,
  },
  latin: {
    two: [line('1', 'root', 72), line('2&', 'fifth', 88)],
    three: [line('1', 'root', 72), line('2&', 'fifth', 88), line('3', 'octave', 84)],
    held: 0.8,
  },
  funk: {
    two: [line('1', 'root', 98), line('1a', 'octave', 74), line('2&', 'fifth', 80)],
    three: [line('1', 'root', 98), line('2&', 'octave', 80), line('3', 'fifth', 80), line('3a', 'root', 74)],
    held: 0.6,
  },
  roots: { two: [line('1', 'root')], three: [line('1', 'root')], held: 0.95 },
} as const satisfies Record<string, BassPattern>;

export type BassManner = keyof typeof BASS_PATTERNS | 'walking';
