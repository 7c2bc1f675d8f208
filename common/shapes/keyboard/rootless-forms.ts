import type { ChordRoles } from './chord-roles.ts';
import { MIDDLE } from './hands.ts';
import type { KeyboardVoicing } from './keyboard-voicing.ts';
import { closeOver, inversions, voicingOf } from './stack.ts';
import { distinct, type Tone } from './tone.ts';

/** As many notes as a hand plays in close position; the left hand plays no more of a chord without a bass. */
const MOST_NOTES = 4;

/**
 * The left hand over somebody else's bass: third, fifth, seventh and ninth in close position, the third below (form A)
 * or the seventh (form B). The sixth of a sixth chord is its seventh. Source: tests/published/voicings, "rootless".
 *
 * A triad and a diminished seventh have no such forms: they are played whole, in close position in any inversion.
 */
export function rootlessForms(roles: ChordRoles): KeyboardVoicing[] {
  const { third, seventh } = roles;
  if (third === null || seventh === null || seventh.degree === 'bb7') return whole(roles);
  return alternatives(roles).flatMap((tones) =>
    [third, seventh].flatMap((bottom) =>
      closeOver(bottom, tones, 'left', MIDDLE).map((keys) => voicingOf('rootless', keys)),
    ),
  );
}

/** Every choice of a fifth and a ninth with third and seventh, on distinct keys and without the root's. */
function alternatives({ third, seventh, fifths, ninths }: ChordRoles): Tone[][] {
  return orNone(fifths).flatMap((fifth) =>
    orNone(ninths).map((ninth) => distinct([third, seventh, fifth, ninth])),
  );
}

const orNone = (tones: readonly Tone[]): readonly (Tone | null)[] => (tones.length === 0 ? [null] : tones);

/** All its notes; of more than four the root goes first, then the fifth. */
function whole({ named }: ChordRoles): KeyboardVoicing[] {
  return inversions(fourOf(distinct(named)), 'left', MIDDLE).map((keys) => voicingOf('rootless', keys));
}

function fourOf(tones: readonly Tone[]): Tone[] {
  const drop = ['1', '5'].slice(0, Math.max(0, tones.length - MOST_NOTES));
  return tones.filter(({ degree }) => !drop.includes(degree)).slice(0, MOST_NOTES);
}
