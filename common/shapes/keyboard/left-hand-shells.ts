import type { ChordRoles } from './chord-roles.ts';
import { SHELL } from './hands.ts';
import type { KeyboardVoicing, PressedKey } from './keyboard-voicing.ts';
import { isWithin, keyAbove, keysOf, voicingOf } from './stack.ts';
import { distinct, type Tone } from './tone.ts';

/**
 * Root and third, or root and seventh, of the left hand. A triad has its fifth in place of the seventh; over a bass
 * after a slash whatever of these is not in the bass already. Common practice, no source.
 */
export function leftHandPairs(roles: ChordRoles): KeyboardVoicing[] {
  const [bottom, ...above] = shellTones(roles);
  if (bottom === undefined) return [];
  return keysOf(bottom, 'left', SHELL).flatMap((lowest) =>
    above
      .map((tone) => [lowest, keyAbove(tone, 'left', lowest.pitch)])
      .filter((keys) => isWithin(keys, SHELL))
      .map((keys) => voicingOf('pairs', keys)),
  );
}

/**
 * Root, third and seventh of the left hand, close (`1-3-7`) or with the third as a tenth (`1-7-3`). What stands for
 * third and seventh, and a bass after a slash, as in `leftHandPairs`. Common practice, no source.
 */
export function leftHandShells(roles: ChordRoles): KeyboardVoicing[] {
  const [bottom, one, other] = shellTones(roles);
  if (bottom === undefined || one === undefined || other === undefined) return [];
  return keysOf(bottom, 'left', SHELL).flatMap((lowest) =>
    [stacked(lowest, one, other), stacked(lowest, other, one)]
      .filter((keys) => isWithin(keys, SHELL))
      .map((keys) => voicingOf('shells', keys)),
  );
}

function stacked(lowest: PressedKey, one: Tone, other: Tone): PressedKey[] {
  const middle = keyAbove(one, 'left', lowest.pitch);
  return [lowest, middle, keyAbove(other, 'left', middle.pitch)];
}

/** The bass and the two notes that say most over it. */
function shellTones({ bass, third, seventh, fifths, named }: ChordRoles): Tone[] {
  const fifth = seventh === null ? (fifths[0] ?? null) : null;
  return distinct([bass, third, seventh, fifth, ...named]).slice(0, 3);
}
