import type { ChordSymbol } from '../../theory/chord-symbol.ts';
import { heldSteps } from '../held-steps.ts';
import { voicePath } from '../voice-path.ts';
import type { FretInstrument } from './fret-instrument.ts';
import type { FretShape } from './fret-shape.ts';
import type { Grip } from './grip.ts';
import { keptGrips } from './kept-shapes.ts';
import { MOVEMENT } from './movement.ts';
import type { ShapeRules } from './shapes-of.ts';

export interface GuitarPathOptions extends ShapeRules {
  readonly instrument: FretInstrument;
  /** By step, the frets the player wants there, whatever kind of shape it is. */
  readonly pins?: ReadonlyMap<number, FretShape['frets']>;
  /** The form goes round: the move from the last chord to the first counts too. */
  readonly closed?: boolean;
}

export interface GuitarPath {
  /** A shape for each step; null where there is no chord or no hand can play it. */
  readonly shapes: readonly (FretShape | null)[];
  /** Steps whose pin is no shape of their chord (the chord was edited since, say): they go their own way. */
  readonly lostPins: readonly number[];
}

type Grips = readonly Grip[];

/**
 * The shapes for the chords of a form, on any fretted instrument, among which hand and voices move least: no other
 * choice costs less by `MOVEMENT` (SHAPE-17). Where a chord has no shape of the kinds wanted (a triad has no shell), all its
 * kinds may be taken, on the root where it can. A chord that is repeated keeps its shape, or the one pinned for any of them, and counts once. Steps
 * without a chord are passed over.
 * @param symbols chord by chord; null for N.C. and rests
 */
export function guitarPath(
  symbols: readonly (ChordSymbol | null)[],
  { instrument, pins = new Map(), closed = false, ...rules }: GuitarPathOptions,
): GuitarPath {
  const { kinds, ...ofAnyKind } = rules;
  const wanted = (symbol: ChordSymbol): Grips => {
    const onItsRoot = { ...ofAnyKind, bassPlays: false };
    for (const asked of kinds === undefined ? [] : [rules, onItsRoot]) {
      const grips = keptGrips(symbol, instrument, asked);
      if (grips.length > 0) return grips;
    }
    return keptGrips(symbol, instrument, ofAnyKind);
  };

  const lostPins: number[] = [];
  const played: { readonly step: number; readonly every: Grips; readonly pinned?: Grip }[] = [];
  symbols.forEach((symbol, step) => {
    const pin = pins.get(step)?.join();
    const ofPin = symbol === null || pin === undefined ? [] : keptGrips(symbol, instrument, ofAnyKind);
    const pinned = ofPin.find(({ shape }) => shape.frets.join() === pin);
    const every = symbol === null ? [] : wanted(symbol);
    if (pin !== undefined && pinned === undefined) lostPins.push(step);
    if (pinned !== undefined) played.push({ step, every, pinned });
    else if (every.length > 0) played.push({ step, every });
  });
  const pinOf = (held: readonly { readonly pinned?: Grip }[]): Grip | undefined =>
    held.find(({ pinned }) => pinned)?.pinned;
  const steps = heldSteps(
    played,
    (held, { every, pinned }) =>
      held[0]?.every === every && (pinned === undefined || (pinOf(held) ?? pinned) === pinned),
    closed,
  ).map((held) => {
    const pinned = pinOf(held);
    return { held, choices: pinned === undefined ? (held[0]?.every ?? []) : [pinned] };
  });
  const path = voicePath(
    steps.map(({ choices }) => choices),
    MOVEMENT,
    { closed },
  );
  const shapes: (FretShape | null)[] = symbols.map(() => null);
  steps.forEach(({ held, choices }, i) => {
    const shape = choices[path[i] as number]?.shape ?? null;
    for (const { step } of held) shapes[step] = shape;
  });
  return { shapes, lostPins };
}
