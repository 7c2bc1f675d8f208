import { loopAt, soloAt } from '../../common/stage/in-force.ts';
import { useObservable } from '../state/observable.ts';
import type { Person } from '../state/person.ts';
import { podiumSettings } from '../storage/tablet-podium.ts';
import { keyState } from './key-state.ts';
import { type Landings, landingWords } from './landing-words.ts';
import type { Stretch } from './letters.ts';
import { Pad } from './pad.tsx';
import { pageBeside } from './pad-pages.ts';
import type { KeyMatter, PadPage } from './podium-key.ts';
import { podiumKeys } from './podium-keys.ts';
import type { PodiumMoment } from './podium-moment.ts';
import { SoloPicker } from './solo-picker.tsx';
import { soloists } from './soloists.ts';
import { pickedSoloists } from './soloists-picked.ts';
import { SpotPanel } from './spot-panel.tsx';
import { useSwipe } from './use-swipe.ts';

const NOWHERE: Landings = { phrase: '', chorus: '' };
/** Bars ahead in which the ends of phrase and chorus are looked for. */
const AHEAD = 72;

/** The screen of keys that is turned to. */
export const Screen = ({
  moment,
  matter,
  page,
  people,
  chosen,
  goalBpm,
  onPage,
  onGoal,
}: {
  readonly moment: PodiumMoment;
  readonly matter: KeyMatter;
  readonly page: PadPage;
  readonly people: readonly Person[];
  readonly chosen: Stretch | null;
  readonly goalBpm: number;
  readonly onPage: (page: PadPage) => void;
  readonly onGoal: (bpm: number) => void;
}) => {
  const { performance, follower, road, nowMs, rolling, away, announced, settings, isFree, call } = moment;
  const picked = useObservable(pickedSoloists);
  const swipe = useSwipe((by) => onPage(pageBeside(page, by)));
  const { bars, now } = follower.source.barsAround(nowMs, 0, AHEAD);
  const keys = podiumKeys(matter)
    .filter((key) => key.page === page)
    .map((key) => ({ key, state: keyState(key, performance, announced, nowMs, away) }));
  const solo = soloAt(performance, nowMs);
  return (
    <div className="podium-screen" {...swipe}>
      {page === 'spot' ? (
        <SpotPanel
          chosen={chosen}
          legName={road.legs.find(({ id }) => id === chosen?.leg)?.name ?? ''}
          settings={settings}
          bpm={matter.bpm}
          goalBpm={goalBpm}
          rolling={rolling}
          looping={loopAt(performance, nowMs) !== null}
          isFree={isFree}
          away={away}
          onSettings={podiumSettings.change}
          onGoal={onGoal}
          onCall={call}
        />
      ) : (
        <Pad
          page={page}
          keys={keys}
          landings={rolling ? landingWords(bars, now, AHEAD) : NOWHERE}
          onPress={({ state }) => {
            if (state.state === 'ready' || state.state === 'away') call(state.face.cue);
          }}
        >
          {page === 'solos' && (
            <SoloPicker
              names={soloists(people)}
              picked={picked}
              now={solo?.now ?? null}
              next={solo?.next ?? null}
              isFree={isFree}
              away={away}
              onPick={pickedSoloists.set}
              onCall={call}
            />
          )}
        </Pad>
      )}
    </div>
  );
};
