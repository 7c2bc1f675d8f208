import type { ChordSymbol } from '../../theory/chord-symbol.ts';
import { chordRoles } from './chord-roles.ts';
import { isClear, isReached, NINTH_SEMITONES } from './hands.ts';
import type { KeyboardVoicing, KeysStyle } from './keyboard-voicing.ts';
import { leftHandPairs, leftHandShells } from './left-hand-shells.ts';
import { rootlessForms } from './rootless-forms.ts';
import { twoHandSpread } from './two-hand-spread.ts';

export interface VoicingOptions {
  /** What a hand reaches from thumb to little finger; a major ninth where left out. */
  readonly reachSemitones?: number;
  /** Degrees that the chord's scale adds to it (`scaleColours`), for colours that its symbol leaves open. */
  readonly colours?: readonly string[];
}

const FORMS = {
  pairs: leftHandPairs,
  shells: leftHandShells,
  rootless: rootlessForms,
  twoHands: twoHandSpread,
} as const;

/** Where a hand cannot play a style the next simpler one stands in. */
const STAND_INS: Readonly<Record<KeysStyle, readonly KeysStyle[]>> = {
  pairs: ['pairs', 'rootless'],
  shells: ['shells', 'pairs', 'rootless'],
  rootless: ['rootless'],
  twoHands: ['twoHands', 'rootless'],
};

/**
 * Every way to play a chord in a style that hands reach and that is clear, from the lowest up; never empty.
 * Rules: RULES.md.
 *
 * @example keyboardVoicings(Dm7, 'rootless').map(({ form }) => form) // ['b3-5-b7-9', 'b7-9-b3-5', …]
 */
export function keyboardVoicings(
  symbol: ChordSymbol,
  style: KeysStyle,
  { reachSemitones = NINTH_SEMITONES, colours }: VoicingOptions = {},
): readonly KeyboardVoicing[] {
  const roles = chordRoles(symbol, colours);
  for (const each of STAND_INS[style]) {
    const playable = FORMS[each](roles).filter(
      (voicing) => isReached(voicing, reachSemitones) && isClear(voicing.keys),
    );
    if (playable.length > 0) return distinctVoicings(playable);
  }
  throw new Error(`no hand plays "${symbol.typed}" within ${reachSemitones} semitones, expected at least 12`);
}

/** Two ways to the same keys are one voicing: the first. */
function distinctVoicings(voicings: readonly KeyboardVoicing[]): KeyboardVoicing[] {
  const found = new Map<string, KeyboardVoicing>();
  for (const voicing of voicings) {
    const where = voicing.keys.map(({ pitch, hand }) => `${hand}${pitch}`).join(' ');
    if (!found.has(where)) found.set(where, voicing);
  }
  return [...found.values()].sort((one, other) => lowest(one) - lowest(other));
}

const lowest = ({ keys }: KeyboardVoicing): number => keys[0]?.pitch ?? 0;
