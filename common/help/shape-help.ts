import type { FretInstrument } from '../shapes/fretboard/fret-instrument.ts';
import type { ShapeKind } from '../shapes/fretboard/fret-shape.ts';
import { atLeast, type Grip, gripOf, movement } from '../shapes/fretboard/movement.ts';
import { shapesOf } from '../shapes/fretboard/shapes-of.ts';
import { voicePath } from '../shapes/voice-path.ts';
import type { ChordSymbol } from '../theory/chord-symbol.ts';
import type { Help } from './help.ts';
import type { PassChords } from './road-help.ts';

export interface ShapeWishes {
  readonly instrument: FretInstrument;
  /** Kinds to choose from; all where none is named, and for a chord that has no shape of these. */
  readonly kinds: readonly ShapeKind[];
}

/** A shape for each chord, on the path of least movement; closed where the pass goes round. */
export const shapeHelp = (
  { chords, goesRound }: PassChords,
  { instrument, kinds }: ShapeWishes,
): (Help | null)[] => {
  const played = chords.flatMap(({ symbol }, index) => {
    const grips = gripsOf(symbol, { instrument, kinds });
    return grips.length === 0 ? [] : [{ index, grips }];
  });
  const path = voicePath(
    played.map(({ grips }) => grips),
    { own: ({ own }) => own, move: movement, group: ({ hand }) => hand, atLeast },
    { closed: goesRound },
  );
  const helps: (Help | null)[] = chords.map(() => null);
  played.forEach(({ index, grips }, step) => {
    const grip = grips[path[step] ?? 0];
    if (grip) helps[index] = { kind: 'shape', shape: grip.shape };
  });
  return helps;
};

/** Looking for all shapes of a chord takes longer than finding the path through a form; tunes share their chords. */
const MOST_KEPT = 300;
const kept = new Map<string, readonly Grip[]>();

const gripsOf = (symbol: ChordSymbol, { instrument, kinds }: ShapeWishes): readonly Grip[] => {
  const name = JSON.stringify([symbol.root, symbol.degrees, symbol.bass, instrument, kinds]);
  const known = kept.get(name);
  if (known) return known;
  const wanted = kinds.length === 0 ? [] : shapesOf(symbol, instrument, { kinds });
  const shapes = wanted.length > 0 ? wanted : shapesOf(symbol, instrument);
  const grips = shapes.map((shape) => gripOf(shape, instrument));
  if (kept.size >= MOST_KEPT) kept.clear();
  kept.set(name, grips);
  return grips;
};
