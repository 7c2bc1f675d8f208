import { degreeFifths } from '../../theory/chord-tones.ts';
import { fifthsOf, noteAt, pitchClassAt } from '../../theory/pitch.ts';

/** A note of a chord that has no octave yet. */
export interface Tone {
  readonly degree: string;
  /** In plain signs. */
  readonly note: string;
  /** C = 0 … B = 11. */
  readonly pitchClass: number;
}

export function toneOfDegree(root: string, degree: string): Tone {
  const place = fifthsOf(root) + degreeFifths(degree);
  return { degree, note: noteAt(place), pitchClass: pitchClassAt(place) };
}

/** On the line of fifths from the fourth degree up. */
const NUMBERS = ['4', '1', '5', '2', '6', '3', '7'] as const;

/** The bass after a slash, by its degree above the root: of `C7/Bb` the `b7`, of `F/G` the `2`. */
export function toneOfBass(root: string, bass: string): Tone {
  const place = fifthsOf(bass);
  const above = place - fifthsOf(root) + 1;
  const sharps = Math.floor(above / 7);
  const signs = sharps < 0 ? 'b'.repeat(-sharps) : '#'.repeat(sharps);
  return {
    degree: signs + (NUMBERS[above - 7 * sharps] ?? '1'),
    note: bass,
    pitchClass: pitchClassAt(place),
  };
}

/** The tones without those that lie on the key of an earlier one: ♯11 beside ♭5. */
export function distinct(tones: readonly (Tone | null)[]): Tone[] {
  const seen = new Set<number>();
  return tones.filter((tone): tone is Tone => {
    if (tone === null || seen.has(tone.pitchClass)) return false;
    seen.add(tone.pitchClass);
    return true;
  });
}
