import { useState } from 'react';
import type { Leg, Road } from '../../common/form/road.ts';
import type { Cue } from '../../common/stage/cue.ts';
import { judge } from '../../common/stage/judge.ts';
import type { Performance } from '../../common/stage/perform.ts';
import { letters, type Spot } from './letters.ts';

/**
 * The row that stands ready: the top and the letters of the leg. While the band plays a touch means "that bar,
 * beat one, is now", or, switched over, "go there after this phrase"; else it counts in from there.
 */
export const SpotRow = ({
  leg,
  rolling,
  performance,
  nowMs,
  away,
  onCall,
}: {
  readonly road: Road;
  readonly leg: Leg | undefined;
  readonly rolling: boolean;
  readonly performance: Performance;
  readonly nowMs: number;
  readonly away: boolean;
  readonly onCall: (cue: Cue) => void;
}) => {
  const [going, setGoing] = useState(false);
  if (leg === undefined) return null;
  const cueOf = ({ leg: to, barIndex }: Spot): Cue => {
    if (!rolling) return { kind: 'start', leg: to, barIndex };
    return going ? { kind: 'goTo', leg: to, barIndex } : { kind: 'here', leg: to, barIndex };
  };
  return (
    <section className="spot-row" aria-label="spots of the form">
      {rolling ? (
        <div className="spot-mode">
          <button
            type="button"
            className="button-quiet"
            aria-pressed={!going}
            onClick={() => setGoing(false)}
          >
            here, now
          </button>
          <button type="button" className="button-quiet" aria-pressed={going} onClick={() => setGoing(true)}>
            go to
          </button>
        </div>
      ) : (
        <p className="spot-mode">count in from</p>
      )}
      <div className="spot-keys">
        {letters(leg).map((spot) => (
          <button
            type="button"
            className="button spot-key"
            key={spot.name}
            disabled={away || !judge(performance, cueOf(spot), nowMs).ok}
            onClick={() => onCall(cueOf(spot))}
          >
            {spot.name}
          </button>
        ))}
      </div>
    </section>
  );
};
