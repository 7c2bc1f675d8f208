import type { ChordSymbol } from '../../theory/chord-symbol.ts';
import { voicePath } from '../voice-path.ts';
import type { FretInstrument } from './fret-instrument.ts';
import type { FretShape } from './fret-shape.ts';
import { keptShapes } from './kept-shapes.ts';
import { movement } from './movement.ts';
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

/**
 * The shapes for the chords of a form, on any fretted instrument, among which hand and voices move least: no other
 * choice costs less by `movement` (SHAPE-17). Where a chord has no shape of the kinds wanted (a triad has no shell), all its
 * kinds may be taken. Steps without a chord are passed over.
 * @param symbols chord by chord; null for N.C. and rests
 */
export function guitarPath(
  symbols: readonly (ChordSymbol | null)[],
  { instrument, pins = new Map(), closed = false, ...rules }: GuitarPathOptions,
): GuitarPath {
  const { kinds, ...ofAnyKind } = rules;
  const numbered: FretShape[] = [];
  const numbersOf = new Map<readonly FretShape[], readonly number[]>();
  const number = (shapes: readonly FretShape[]): readonly number[] => {
    const known = numbersOf.get(shapes);
    if (known !== undefined) return known;
    const numbers = shapes.map((_, i) => numbered.length + i);
    for (const shape of shapes) numbered.push(shape);
    numbersOf.set(shapes, numbers);
    return numbers;
  };
  const wanted = (symbol: ChordSymbol): readonly FretShape[] => {
    const shapes = kinds === undefined ? [] : keptShapes(symbol, instrument, rules);
    return shapes.length > 0 ? shapes : keptShapes(symbol, instrument, ofAnyKind);
  };

  const lostPins: number[] = [];
  const steps: { readonly step: number; readonly choices: readonly number[] }[] = [];
  symbols.forEach((symbol, step) => {
    const pin = pins.get(step);
    const every = symbol === null || pin === undefined ? [] : keptShapes(symbol, instrument, ofAnyKind);
    const pinned = every.find(({ frets }) => frets.join() === pin?.join());
    if (pin !== undefined && pinned === undefined) lostPins.push(step);
    const shapes = pinned !== undefined ? [pinned] : symbol === null ? [] : wanted(symbol);
    if (shapes.length > 0) steps.push({ step, choices: number(shapes) });
  });
  const path = voicePath(
    steps.map(({ choices }) => choices),
    movement(numbered, instrument),
    { closed },
  );
  const shapes: (FretShape | null)[] = symbols.map(() => null);
  steps.forEach(({ step, choices }, i) => {
    shapes[step] = numbered[choices[path[i] as number] as number] ?? null;
  });
  return { shapes, lostPins };
}
