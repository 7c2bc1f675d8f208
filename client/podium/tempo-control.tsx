import { useEffect, useRef, useState } from 'react';
import { addTap, type Taps, tappedBpm } from './tap-tempo.ts';

const within = (bpm: number): number => Math.min(400, Math.max(20, bpm));
/** Several touches on − or + become one call. */
const SETTLE_MS = 350;
/** After the last tap, in tapped beats, the tempo is called. */
const SETTLE_BEATS = 1.6;

/**
 * Tempo by −, + and by tapping. What is shown is what will be called; it is called once the hand rests.
 * @param bpm the tempo in force, pulses a minute
 */
export const TempoControl = ({
  bpm,
  away,
  tapped,
  onTempo,
}: {
  readonly bpm: number;
  /** The relay does not answer: nothing is called, and a press is told so. */
  readonly away: boolean;
  /** Whether it can be tapped: while the band plays the tap key steers it instead. */
  readonly tapped: boolean;
  readonly onTempo: (bpm: number) => void;
}) => {
  const [wanted, setWanted] = useState<number | null>(null);
  const taps = useRef<Taps>([]);
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  useEffect(() => () => clearTimeout(timer.current), []);

  const callAfter = (next: number, waitMs: number) => {
    if (away) return onTempo(next);
    setWanted(next);
    clearTimeout(timer.current);
    timer.current = setTimeout(() => {
      onTempo(next);
      setWanted(null);
    }, waitMs);
  };
  const shown = Math.round(wanted ?? bpm);
  const step = (by: number) => callAfter(within(shown + by), SETTLE_MS);
  const tap = (stampMs: number) => {
    taps.current = addTap(taps.current, stampMs);
    const tapped = tappedBpm(taps.current);
    if (away) onTempo(shown);
    else if (tapped !== null) callAfter(tapped, (SETTLE_BEATS * 60_000) / tapped);
  };
  return (
    <fieldset className="tempo">
      <legend className="visually-hidden">Tempo</legend>
      <button
        type="button"
        className="button"
        aria-disabled={away}
        onClick={() => step(-1)}
        aria-label="slower"
      >
        −
      </button>
      <output className="tempo-bpm" aria-label={`tempo ${shown}`}>
        {shown}
      </output>
      <button
        type="button"
        className="button"
        aria-disabled={away}
        onClick={() => step(1)}
        aria-label="faster"
      >
        +
      </button>
      {tapped && (
        <button
          type="button"
          className="button tempo-tap"
          aria-disabled={away}
          onPointerDown={({ timeStamp }) => tap(timeStamp)}
          onKeyDown={({ key, repeat, timeStamp }) => {
            if ((key === ' ' || key === 'Enter') && !repeat) tap(timeStamp);
          }}
        >
          tap the tempo
        </button>
      )}
    </fieldset>
  );
};
