import type { FretInstrument } from '../shapes/fretboard/fret-instrument.ts';
import type { FretShape, ShapeKind } from '../shapes/fretboard/fret-shape.ts';
import { guitarPath } from '../shapes/fretboard/guitar-path.ts';
import type { Help } from './help.ts';
import type { PassChords } from './pass-chords.ts';

export interface ShapeWishes {
  readonly instrument: FretInstrument;
  /** Kinds to choose from; all where none is named, and for a chord that has no shape of these. */
  readonly kinds: readonly ShapeKind[];
  /** "This one here": the frets that the player wants for a chord, by `pinName`. */
  readonly pins?: ReadonlyMap<string, FretShape['frets']>;
}

/** The name of a chord for its pin: it stays with the written bar, wherever that is played. */
export const pinName = ({ barId, cell }: { readonly barId: string; readonly cell: number }): string =>
  `${barId} ${cell}`;

/** A shape for each chord, on the path of least movement; closed where the pass goes round. */
export const shapeHelp = (
  { chords, goesRound }: PassChords,
  { instrument, kinds, pins }: ShapeWishes,
): (Help | null)[] => {
  const pinned = chords.flatMap((chord, step) => {
    const frets = pins?.get(pinName(chord));
    return frets === undefined ? [] : [[step, frets] as const];
  });
  const { shapes } = guitarPath(
    chords.map(({ symbol }) => symbol),
    { instrument, closed: goesRound, pins: new Map(pinned), ...(kinds.length === 0 ? {} : { kinds }) },
  );
  return shapes.map((shape) => (shape === null ? null : { kind: 'shape', shape }));
};
