import { type Observable, settable } from '../state/observable.ts';
import { readJson, type TextStore, writeJson } from './stored-json.ts';

/** Frets by string; null is a silent one. */
export type PinnedFrets = readonly (number | null)[];

/** The shapes that a player has chosen for the chords of a chart, by the name of the chord. */
export type ChartPins = ReadonlyMap<string, PinnedFrets>;

export interface PinnedShapes {
  /** The pins of a chart on an instrument in its tuning; the same object until they change. */
  readonly of: (chart: string, tuning: string) => Observable<ChartPins>;
  /** Pins the shape of a chord; null sets it free. */
  readonly pin: (chart: string, tuning: string, chord: string, frets: PinnedFrets | null) => void;
}

const isFret = (fret: unknown): fret is number | null =>
  fret === null || (typeof fret === 'number' && Number.isInteger(fret) && fret >= 0);

const pinsFrom = (value: unknown): ChartPins => {
  if (typeof value !== 'object' || value === null) return new Map();
  return new Map(
    Object.entries(value).filter(
      (entry): entry is [string, PinnedFrets] => Array.isArray(entry[1]) && entry[1].every(isFret),
    ),
  );
};

/** Pins kept on this tablet, those of each chart and tuning apart. */
export const openPinnedShapes = (store: TextStore): PinnedShapes => {
  const open = new Map<string, ReturnType<typeof settable<ChartPins>>>();
  const nameOf = (chart: string, tuning: string) => `tillcue.pins.${chart}.${tuning}`;
  const of = (chart: string, tuning: string) => {
    const name = nameOf(chart, tuning);
    const known = open.get(name) ?? settable(pinsFrom(readJson(store, name)));
    open.set(name, known);
    return known;
  };
  return {
    of,
    pin: (chart, tuning, chord, frets) => {
      const pins = of(chart, tuning);
      const next = new Map(pins.get());
      if (frets === null) next.delete(chord);
      else next.set(chord, frets);
      pins.set(next);
      writeJson(store, nameOf(chart, tuning), Object.fromEntries(next));
    },
  };
};
