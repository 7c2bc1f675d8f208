import type { KeyboardVoicing, PressedKey } from './keyboard-voicing.ts';

/** MIDI numbers, ends included. */
export interface Register {
  readonly low: number;
  readonly high: number;
}

/** C3 to B4: under middle C it grows muddy, over it the right hand has no room. */
export const MIDDLE: Register = { low: 48, high: 71 };
/** F2 to A4: a root that carries, and its shell. */
export const SHELL: Register = { low: 41, high: 69 };
/** C2 to C4. */
export const LEFT: Register = { low: 36, high: 60 };
/** E3 to A5. */
export const RIGHT: Register = { low: 52, high: 81 };

/** What most hands reach: a major ninth; a tenth is for large ones. */
export const NINTH_SEMITONES = 14;
export const TENTH_SEMITONES = 16;

/**
 * The lowest key on which each interval is still heard as two notes, by its semitones from 1 to 11.
 * E3 for a minor second, E♭3, C3, B2, A2, B1, C♯2, and F2 for sixths and sevenths.
 * Source: tests/published/voicings, "low interval limit".
 */
const LOWEST = [52, 51, 48, 47, 45, 35, 37, 41, 41, 41, 41] as const;

/** No interval of the voicing lies so low that it blurs; octaves and wider intervals are clear anywhere. */
export function isClear(keys: readonly PressedKey[]): boolean {
  return keys.every((lower, at) =>
    keys.slice(at + 1).every(({ pitch }) => lower.pitch >= (LOWEST[pitch - lower.pitch - 1] ?? 0)),
  );
}

/** Each hand has five fingers and reaches so far, and the hands don't cross. */
export function isReached({ keys }: Pick<KeyboardVoicing, 'keys'>, reachSemitones: number): boolean {
  const of = (hand: PressedKey['hand']): number[] =>
    keys.filter((key) => key.hand === hand).map(({ pitch }) => pitch);
  const [left, right] = [of('left'), of('right')];
  const reached = [left, right].every(
    (pitches) => pitches.length <= 5 && Math.max(...pitches) - Math.min(...pitches) <= reachSemitones,
  );
  return reached && (left.length === 0 || right.length === 0 || Math.max(...left) < Math.min(...right));
}
