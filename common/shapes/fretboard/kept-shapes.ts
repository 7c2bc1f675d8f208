import type { ChordSymbol } from '../../theory/chord-symbol.ts';
import type { FretInstrument } from './fret-instrument.ts';
import type { FretShape } from './fret-shape.ts';
import { type Grip, gripOf } from './grip.ts';
import { type ShapeRules, shapesOf } from './shapes-of.ts';

/** A tune has a few dozen chords; looking for their shapes takes longer than finding the path through them. */
const MOST_KEPT = 300;
const kept = new Map<string, readonly FretShape[]>();
const grips = new WeakMap<readonly FretShape[], readonly Grip[]>();

/** `shapesOf`, found once for all spellings of a chord; emptied when very many have been asked for. */
export function keptShapes(
  symbol: ChordSymbol,
  instrument: FretInstrument,
  rules: ShapeRules,
): readonly FretShape[] {
  const { root, degrees, bass } = symbol;
  const key = JSON.stringify([root, degrees, bass, instrument, rules]);
  const known = kept.get(key);
  if (known !== undefined) return known;
  const shapes = shapesOf(symbol, instrument, rules);
  if (kept.size >= MOST_KEPT) kept.clear();
  kept.set(key, shapes);
  return shapes;
}

/** The grips of `keptShapes`, the same list each time while they are kept. */
export function keptGrips(
  symbol: ChordSymbol,
  instrument: FretInstrument,
  rules: ShapeRules,
): readonly Grip[] {
  const shapes = keptShapes(symbol, instrument, rules);
  const known = grips.get(shapes) ?? shapes.map((shape) => gripOf(shape, instrument));
  grips.set(shapes, known);
  return known;
}
