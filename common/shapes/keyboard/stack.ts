import type { Register } from './hands.ts';
import type { KeyboardVoicing, KeysStyle, PressedKey } from './keyboard-voicing.ts';
import type { Tone } from './tone.ts';

/** The keys of a tone in a register, from the lowest up. */
export function keysOf(tone: Tone, hand: PressedKey['hand'], { low, high }: Register): PressedKey[] {
  const keys: PressedKey[] = [];
  const first = low + ((((tone.pitchClass - low) % 12) + 12) % 12);
  for (let pitch = first; pitch <= high; pitch += 12) {
    keys.push({ pitch, hand, degree: tone.degree, note: tone.note });
  }
  return keys;
}

/** The next key of a tone above a pitch. */
export function keyAbove(tone: Tone, hand: PressedKey['hand'], pitch: number): PressedKey {
  const above = (((tone.pitchClass - pitch - 1) % 12) + 12) % 12;
  return { pitch: pitch + 1 + above, hand, degree: tone.degree, note: tone.note };
}

/** All of these keys lie in the register. */
export const isWithin = (keys: readonly PressedKey[], { low, high }: Register): boolean =>
  keys.every(({ pitch }) => pitch >= low && pitch <= high);

/** Tones on distinct keys in close position over one of them, wherever they fit into the register. */
export function closeOver(
  bottom: Tone,
  tones: readonly Tone[],
  hand: PressedKey['hand'],
  register: Register,
): PressedKey[][] {
  return keysOf(bottom, hand, register)
    .map((lowest) =>
      [
        lowest,
        ...tones.filter((tone) => tone !== bottom).map((tone) => keyAbove(tone, hand, lowest.pitch)),
      ].sort(byPitch),
    )
    .filter((keys) => isWithin(keys, register));
}

/** In close position in every inversion. */
export const inversions = (
  tones: readonly Tone[],
  hand: PressedKey['hand'],
  register: Register,
): PressedKey[][] => tones.flatMap((bottom) => closeOver(bottom, tones, hand, register));

/** Keys from the lowest up as a voicing, with its form. */
export function voicingOf(style: KeysStyle, keys: readonly PressedKey[]): KeyboardVoicing {
  return { style, form: keys.map(({ degree }) => degree).join('-'), keys };
}

const byPitch = (one: PressedKey, other: PressedKey): number => one.pitch - other.pitch;
