import type { ChordSymbol } from '../../theory/chord-symbol.ts';
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
 * the step has no chord.
 */
export function keyboardPath(
  steps: readonly KeyboardStep[],
  style: KeysStyle,
  { reachSemitones, pins, closed = false }: KeyboardPathOptions = {},
): readonly (KeyboardVoicing | null)[] {
  const listed = new Map<string, readonly KeyboardVoicing[]>();
  const voicingsOf = (symbol: ChordSymbol, colours: readonly string[] | undefined) => {
    const name = `${symbol.typed} ${colours?.join(' ')}`;
    const known = listed.get(name) ?? keyboardVoicings(symbol, style, options(reachSemitones, colours));
    listed.set(name, known);
    return known;
  };
  const played = steps.flatMap(({ symbol, colours }, step) =>
    symbol === null ? [] : [{ step, voicings: voicingsOf(symbol, colours) }],
  );
  const placed = new Map(played.map(({ step }, index) => [step, index]));
  const path = voicePath(
    played.map(({ voicings }) => voicings),
    VOICING_COST,
    { pins: pinsAmong(placed, pins), closed },
  );
  const chosen = new Map(
    played.map(({ step, voicings }, index) => [step, voicings[path[index] ?? 0] as KeyboardVoicing]),
  );
  return steps.map((_, step) => chosen.get(step) ?? null);
}

const options = (
  reachSemitones: number | undefined,
  colours: readonly string[] | undefined,
): VoicingOptions => ({
  ...(reachSemitones === undefined ? {} : { reachSemitones }),
  ...(colours === undefined ? {} : { colours }),
});

function pinsAmong(
  placed: ReadonlyMap<number, number>,
  pins: ReadonlyMap<number, number> = new Map(),
): ReadonlyMap<number, number> {
  return new Map(
    [...pins].map(([step, voicing]) => {
      const index = placed.get(step);
      if (index === undefined) throw new Error(`step ${step} has no chord to pin a voicing of`);
      return [index, voicing];
    }),
  );
}
