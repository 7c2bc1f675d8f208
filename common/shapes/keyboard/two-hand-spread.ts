import type { ChordRoles } from './chord-roles.ts';
import { LEFT, RIGHT } from './hands.ts';
import type { KeyboardVoicing, PressedKey } from './keyboard-voicing.ts';
import { inversions, isWithin, keyAbove, keysOf, voicingOf } from './stack.ts';
import { distinct, type Tone } from './tone.ts';

/** Wider apart than an octave the hands sound like two players. */
const MOST_BETWEEN_HANDS = 12;

/**
 * Both hands: the bass with seventh or third on the left, the other of them with fifth and ninth on the right, in close
 * position in any inversion. A triad has bass and fifth on the left and its three notes on the right; over a bass after
 * a slash the root is played too, in the ninth's place. Common practice, no source.
 */
export function twoHandSpread(roles: ChordRoles): KeyboardVoicing[] {
  return parts(roles).flatMap(({ left, right }) => {
    const [bottom, ...rest] = left;
    if (bottom === undefined || right.length === 0) return [];
    const lows = keysOf(bottom, 'left', LEFT)
      .flatMap((lowest) => lefts(lowest, rest))
      .filter((keys) => isWithin(keys, LEFT));
    const highs = inversions(right, 'right', RIGHT);
    return lows.flatMap((low) =>
      highs.filter((high) => isOver(high, low)).map((high) => voicingOf('twoHands', [...low, ...high])),
    );
  });
}

interface Parts {
  readonly left: readonly Tone[];
  readonly right: readonly Tone[];
}

function parts(roles: ChordRoles): Parts[] {
  const { bass, third, seventh, fifths, ninths, named } = roles;
  const root = named.find(({ degree }) => degree === '1') ?? null;
  if (third === null || seventh === null) return wholeParts(roles, root);
  const isSlash = bass !== null && bass.pitchClass !== root?.pitchClass;
  const colours = isSlash || ninths.length === 0 ? [root] : ninths;
  return (fifths.length === 0 ? [null] : fifths).flatMap((fifth) =>
    colours.flatMap((colour) =>
      [seventh, third].map((shell): Parts => {
        const left = distinct([bass, shell]).slice(0, 2);
        const over = distinct([third, seventh, fifth, colour]);
        return { left, right: over.filter((tone) => !isIn(left, tone)) };
      }),
    ),
  );
}

/** A triad's right hand has all its notes, whatever is below. */
function wholeParts({ bass, fifths, named }: ChordRoles, root: Tone | null): Parts[] {
  const tones = distinct(named);
  const right = tones.length > 4 ? tones.filter((tone) => tone !== root).slice(0, 4) : tones;
  const fifth = fifths.find(({ degree }) => degree === '5') ?? null;
  return [
    { left: distinct([bass, fifth]), right },
    { left: distinct([bass]), right },
  ];
}

const isIn = (tones: readonly Tone[], { pitchClass }: Tone): boolean =>
  tones.some((tone) => tone.pitchClass === pitchClass);

/** Over the lowest key the next one near, and, as a tenth, an octave higher. */
function lefts(lowest: PressedKey, rest: readonly Tone[]): PressedKey[][] {
  const [tone] = rest;
  if (tone === undefined) return [[lowest]];
  const near = keyAbove(tone, 'left', lowest.pitch);
  return [
    [lowest, near],
    [lowest, { ...near, pitch: near.pitch + 12 }],
  ];
}

function isOver(high: readonly PressedKey[], low: readonly PressedKey[]): boolean {
  const gap = (high[0] as PressedKey).pitch - (low.at(-1) as PressedKey).pitch;
  return gap > 0 && gap <= MOST_BETWEEN_HANDS;
}
