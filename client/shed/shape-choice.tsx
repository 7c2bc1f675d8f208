import { useMemo } from 'react';
import type { FretInstrument } from '../../common/shapes/fretboard/fret-instrument.ts';
import type { FretShape } from '../../common/shapes/fretboard/fret-shape.ts';
import { keptShapes } from '../../common/shapes/fretboard/kept-shapes.ts';
import { readChordSymbol } from '../../common/theory/chord-symbol.ts';
import type { Reading } from '../../common/theory/transpose.ts';
import { ChordSymbol } from '../engraving/chord-symbol.tsx';
import { FretDiagram } from '../engraving/fret-diagram.tsx';
import type { Neck } from '../engraving/help-mark.tsx';
import { useObservable } from '../state/observable.ts';
import type { ChartPins, PinnedFrets } from '../storage/pinned-shapes.ts';
import { tabletHelp } from '../storage/tablet-help.ts';

export interface Pinning {
  readonly instrument: FretInstrument;
  readonly reading: Reading;
  readonly pins: ChartPins;
  readonly onPin: (chord: string, frets: PinnedFrets | null) => void;
}

export interface ShapeChoiceProps extends Pinning {
  /** Of the chord, for its pin. */
  readonly name: string;
  /** As the player reads it. */
  readonly symbol: string;
  readonly neck: Neck;
  readonly onClose: () => void;
}

/** More than these are more than one looks through. */
const MOST_SHOWN = 48;

/** The shapes of a chord along the neck: touch one, and it is played here; the rest of the form finds its way. */
export const ShapeChoice = (props: ShapeChoiceProps) => {
  const { name, symbol, instrument, pins, onPin, neck, onClose } = props;
  const { shapes: kind } = useObservable(tabletHelp);
  const shapes = useMemo(() => offered(symbol, instrument, kind), [symbol, instrument, kind]);
  const pinned = pins.get(name)?.join();
  return (
    <section className="panel shape-choice" aria-label="shapes of this chord" data-print="no">
      <p className="shape-choice-head">
        <ChordSymbol symbol={symbol} />
        <span className="dim">
          {shapes.length === 0
            ? 'No hand can play it.'
            : 'Touch the one you want here; the others follow it.'}
        </span>
        <span className="button-row">
          {pinned !== undefined && (
            <button type="button" className="button" onClick={() => onPin(name, null)}>
              Let it go
            </button>
          )}
          <button type="button" className="button" onClick={onClose}>
            Close
          </button>
        </span>
      </p>
      <div className="shape-offers">
        {shapes.map((shape) => (
          <button
            key={shape.frets.join()}
            type="button"
            className="shape-offer"
            aria-pressed={shape.frets.join() === pinned}
            onClick={() => onPin(name, shape.frets)}
          >
            <FretDiagram shape={shape} {...neck} />
          </button>
        ))}
      </div>
    </section>
  );
};

/** Those of the player's kind, from the nut up; all where the chord has none of it. */
const offered = (symbol: string, instrument: FretInstrument, kind: string): readonly FretShape[] => {
  const chord = readChordSymbol(symbol);
  if (chord === null) return [];
  const all = keptShapes(chord, instrument, {});
  const ofKind = all.filter(({ kinds }) => kinds.some((one) => one === kind));
  return (ofKind.length > 0 ? ofKind : all).slice(0, MOST_SHOWN);
};
