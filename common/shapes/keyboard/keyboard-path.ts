import type { ChordSymbol } from '../../theory/chord-symbol.ts';
import { heldSteps } from '../held-steps.ts';
import { voicePath } from '../voice-path.ts';
import type { KeyboardVoicing, KeysStyle } from './keyboard-voicing.ts';
import { keyboardVoicings, type VoicingOptions } from './keyboard-voicings.ts';
import { VOICING_COST } from './voicing-cost.ts';

/** A chord of the form; `null` where nothing is played. */
export interface KeyboardStep {
  readonly symbol: ChordSymbol | null;
  /** Degrees that its scale adds, as `VoicingOptions` has them. */
  readonly colours?: readonly string[];
}

export interface KeyboardPathOptions {
  readonly reachSemitones?: number;
  /** Step → place in the list of `keyboardVoicings` of the voicing to play there. */
  readonly pins?: ReadonlyMap<number, number>;
  /** The form goes round. */
  readonly closed?: boolean;
}

/**
 * A voicing for each step, such that no other choice among `keyboardVoicings` costs less by `VOICING_COST`; `null` where
 * the step has no chord. A chord that is repeated keeps its voicing, or the one pinned for any of them, and counts once.
 */
export function keyboardPath(
  steps: readonly KeyboardStep[],
  style: KeysStyle,
  { reachSemitones, pins = new Map(), closed = false }: KeyboardPathOptions = {},
): readonly (KeyboardVoicing | null)[] {
  const listed = new Map<string, readonly KeyboardVoicing[]>();
  const voicingsOf = (symbol: ChordSymbol, colours: readonly string[] | undefined) => {
    const { root, degrees, bass } = symbol;
    const name = JSON.stringify([root, degrees, bass, colours]);
    const known = listed.get(name) ?? keyboardVoicings(symbol, style, options(reachSemitones, colours));
    listed.set(name, known);
    return known;
  };
  const played = steps.flatMap(({ symbol, colours }, step) => {
    if (symbol === null) return [];
    return [{ step, voicings: voicingsOf(symbol, colours), pin: pins.get(step) }];
  });
  for (const step of pins.keys()) {
    if (!steps[step]?.symbol) throw new Error(`step ${step} has no chord to pin a voicing of`);
  }
  const pinOf = (held: readonly { readonly pin: number | undefined }[]) =>
    held.find(({ pin }) => pin !== undefined)?.pin;
  const groups = heldSteps(
    played,
    (held, { voicings, pin }) =>
      held[0]?.voicings === voicings && (pin === undefined || (pinOf(held) ?? pin) === pin),
    closed,
  );
  const pinned = groups.flatMap((held, index) => {
    const pin = pinOf(held);
    return pin === undefined ? [] : [[index, pin] as const];
  });
  const path = voicePath(
    groups.map(([first]) => first?.voicings ?? []),
    VOICING_COST,
    { pins: new Map(pinned), closed },
  );
  const chosen: (KeyboardVoicing | null)[] = steps.map(() => null);
  groups.forEach((held, index) => {
    for (const { step, voicings } of held) chosen[step] = voicings[path[index] ?? 0] ?? null;
  });
  return chosen;
}

const options = (
  reachSemitones: number | undefined,
  colours: readonly string[] | undefined,
): VoicingOptions => ({
  ...(reachSemitones === undefined ? {} : { reachSemitones }),
  ...(colours === undefined ? {} : { colours }),
});
