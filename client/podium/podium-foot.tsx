import type { Leg } from '../../common/form/road.ts';
import { lastStopAt } from '../../common/stage/in-force.ts';
import { BarActions } from './bar-actions.tsx';
import { HereRow } from './here-row.tsx';
import { keyState } from './key-state.ts';
import type { Stretch } from './letters.ts';
import { PadKey } from './pad-key.tsx';
import { countInKey, stopKey } from './podium-keys.ts';
import type { PodiumMoment } from './podium-moment.ts';
import { slipAt } from './slip.ts';
import { readySpots } from './spots.ts';

/** The row under the keys: where to, and the key that counts in or stops. */
export const PodiumFoot = ({
  moment,
  leg,
  chosen,
  onLoop,
  onDone,
}: {
  readonly moment: PodiumMoment;
  /** The leg being played, or chosen to start from. */
  readonly leg: Leg | undefined;
  /** The bar that was touched, where something is to be done with it. */
  readonly chosen: Stretch | null;
  readonly onLoop: () => void;
  readonly onDone: () => void;
}) => {
  const { performance, announced, road, rolling, away, nowMs, isFree, call, pressedAt } = moment;
  const end = rolling ? stopKey : countInKey;
  const state = keyState(end, performance, announced, nowMs, away);
  return (
    <footer className="podium-foot">
      {chosen !== null ? (
        <BarActions
          chosen={chosen}
          legName={road.legs.find(({ id }) => id === chosen.leg)?.name ?? ''}
          nowMs={nowMs}
          isFree={isFree}
          away={away}
          pressTime={pressedAt}
          onCall={call}
          onLoop={onLoop}
          onDone={onDone}
        />
      ) : (
        leg !== undefined && (
          <HereRow
            spots={readySpots(road, leg, rolling, rolling ? null : lastStopAt(performance))}
            rolling={rolling}
            nowMs={nowMs}
            isFree={isFree}
            away={away}
            pressTime={pressedAt}
            onCall={call}
            onSlip={(sign, length, stampMs) => {
              const cue = slipAt(performance, sign, length, pressedAt(stampMs));
              if (cue !== null) call(cue);
            }}
          />
        )
      )}
      <PadKey
        id={end.id}
        state={state}
        onPress={() => {
          if (state.state === 'ready' || state.state === 'away') call(state.face.cue);
        }}
      />
    </footer>
  );
};
