import { useMemo } from 'react';
import { TempoMark } from '../engraving/tempo-mark.tsx';
import { type Follower, momentKey } from '../stand/follower.ts';
import { performanceSource } from '../stand/performance-source.ts';
import { PlaceRow } from '../stand/place-row.tsx';
import { useFollower, useMoment } from '../stand/use-follower.ts';
import { useBoard } from '../state/board-context.tsx';
import { useObservable } from '../state/observable.ts';
import { podiumSettings } from '../storage/tablet-podium.ts';
import { Choice } from './choice.tsx';
import { pressTime } from './press-time.ts';
import { TapKey } from './tap-key.tsx';
import type { useCalling } from './use-calling.ts';

/** For the drummer who was lent the taps: one large key, and where the band is. */
export const TapScreen = ({ calling }: { readonly calling: ReturnType<typeof useCalling> }) => {
  const board = useBoard();
  const { take, performance: played } = useObservable(board.stage);
  const link = useObservable(board.link);
  const { tapping } = useObservable(podiumSettings);
  const source = useMemo(() => (played === null ? null : performanceSource(played)), [played]);
  const follower = useFollower(source, board.sharedNow);
  const downbeats = tapping === 'downbeats';
  return (
    <div className="tap-screen">
      <header className="podium-head">
        <div className="podium-title">
          <h1>{take === null ? 'No tune yet' : take.title === '' ? 'Untitled' : take.title}</h1>
          {follower !== null && <PlaceRow follower={follower} />}
          {follower !== null && <TempoNow follower={follower} />}
        </div>
        <Choice
          label="I tap"
          options={[
            ['beats', 'every beat'],
            ['downbeats', 'the one'],
          ]}
          value={tapping}
          onChange={(next) => podiumSettings.change({ tapping: next })}
        />
        <button
          type="button"
          className="button"
          aria-disabled={link.state !== 'on'}
          onClick={() => void calling.lead({ taps: null })}
        >
          give the taps back
        </button>
      </header>
      <TapKey
        name="Tap"
        detail={downbeats ? 'the one of every bar' : 'every beat'}
        disabled={take === null}
        away={link.state !== 'on'}
        onTap={(stampMs) =>
          void calling.call({
            kind: 'tap',
            tappedAtMs: pressTime(stampMs, performance.now(), board.sharedNow()),
            ...(downbeats ? { downbeat: true } : {}),
          })
        }
      />
    </div>
  );
};

/** The tempo as the board has it, once a beat. */
const TempoNow = ({ follower }: { readonly follower: Follower }) => {
  const { atMs } = useMoment(follower, ({ where }) => momentKey(where));
  const first = follower.source.roadAt(atMs).legs[0]?.bars[0];
  return (
    <p className="tap-tempo">
      <TempoMark isCompound={first?.content.music.metre.compound} />
      {Math.round(follower.source.tempoAt(atMs))}
    </p>
  );
};
