import type { FretInstrument } from '../shapes/fretboard/fret-instrument.ts';
import type { ShapeKind } from '../shapes/fretboard/fret-shape.ts';
import { guitarPath } from '../shapes/fretboard/guitar-path.ts';
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
  const { shapes } = guitarPath(
    chords.map(({ symbol }) => symbol),
    { instrument, closed: goesRound, ...(kinds.length === 0 ? {} : { kinds }) },
  );
  return shapes.map((shape) => (shape === null ? null : { kind: 'shape', shape }));
};
