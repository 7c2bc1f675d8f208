import { useState } from 'react';
import type { Cue } from '../../common/stage/cue.ts';
import type { Spot } from './letters.ts';
import { PressKey } from './press-key.tsx';
import type { SlipLength } from './slip.ts';
import './here-row.css';

/** What a touch on a spot means. */
type Meaning = 'count in' | 'here' | 'go to';

/** Letters of a name that is set smaller. */
const LONG = 12;

const spotCue = ({ leg, barIndex, pass }: Spot, meaning: Meaning, pressedAtMs: number): Cue => {
  const place = { leg, barIndex, ...(pass === undefined ? {} : { pass }) };
  if (meaning === 'count in') return { kind: 'start', ...place };
  return meaning === 'here' ? { kind: 'here', ...place, pressedAtMs } : { kind: 'goTo', ...place };
};

/**
 * The row that stands ready. While the band plays a touch means "that bar, beat one, is now" or, switched over, "go
 * there after this phrase", and two keys put a slip right; else it counts in from there.
 */
export const HereRow = ({
  spots,
  rolling,
  nowMs,
  isFree,
  away = false,
  pressTime,
  onCall,
  onSlip,
}: {
  readonly spots: readonly Spot[];
  readonly rolling: boolean;
  readonly nowMs: number;
  /** Whether that cue makes sense now. */
  readonly isFree: (cue: Cue) => boolean;
  /** The relay does not answer. */
  readonly away?: boolean;
  /** Shared time of an event's stamp. */
  readonly pressTime: (stampMs: number) => number;
  readonly onCall: (cue: Cue) => void;
  /** @param sign 1: the band is ahead of the board, −1: behind it */
  readonly onSlip: (sign: 1 | -1, length: SlipLength, stampMs: number) => void;
}) => {
  const [going, setGoing] = useState(false);
  const [length, setLength] = useState<SlipLength>('beat');
  const meaning: Meaning = !rolling ? 'count in' : going ? 'go to' : 'here';
  return (
    <section className="here-row" aria-label="spots of the form">
      {rolling ? (
        <div className="here-mode">
          <button
            type="button"
            className="button here-key"
            aria-pressed={!going}
            onClick={() => setGoing(false)}
          >
            here
          </button>
          <button
            type="button"
            className="button here-key"
            aria-pressed={going}
            onClick={() => setGoing(true)}
          >
            go to
          </button>
        </div>
      ) : (
        <p className="here-mode">count in from</p>
      )}
      <div className="here-spots">
        {spots.map((spot) => (
          <PressKey
            className={`button here-key spot-key${spot.name.length > LONG ? ' spot-key-long' : ''}`}
            key={spot.name}
            disabled={!isFree(spotCue(spot, meaning, nowMs))}
            away={away}
            {...(spot.name.length > LONG ? { title: spot.name } : {})}
            onPress={(stampMs) => onCall(spotCue(spot, meaning, pressTime(stampMs)))}
          >
            <span className="spot-name">{spot.name}</span>
          </PressKey>
        ))}
      </div>
      {rolling && (
        <div className="here-slips">
          <PressKey id="late" away={away} onPress={(stampMs) => onSlip(-1, length, stampMs)}>
            {length} late
          </PressKey>
          <PressKey id="early" away={away} onPress={(stampMs) => onSlip(1, length, stampMs)}>
            {length} early
          </PressKey>
          <button
            type="button"
            className="button here-key"
            aria-pressed={length === 'half bar'}
            onClick={() => setLength(length === 'beat' ? 'half bar' : 'beat')}
          >
            by half a bar
          </button>
        </div>
      )}
    </section>
  );
};
