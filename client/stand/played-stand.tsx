import { type RefObject, useCallback, useEffect, useMemo, useState } from 'react';
import type { Note } from '../../common/document/notes.ts';
import type { Road, RoadBar } from '../../common/form/road.ts';
import type { FoundSpots } from './find-lost-spots.ts';
import { Flags } from './flags.tsx';
import type { Follower, Moment } from './follower.ts';
import { Foot } from './foot.tsx';
import type { Help } from './help/help-on-stand.ts';
import { CountMoment, WaitingMoment } from './moments.tsx';
import { PlaceRow } from './place-row.tsx';
import { semitonesFor } from './reader-key.ts';
import { Roll } from './roll.tsx';
import { spotAt } from './spot-at.ts';
import type { StandViewProps } from './stand-props.ts';
import { useBarsPerLine } from './use-bars-per-line.ts';
import { useFrames, useMoment } from './use-follower.ts';
import { useReader } from './use-reader.ts';

/** What the stand as a whole depends on: the state, the road, the key that all is read in, and the spot rehearsed. */
const standKey =
  ({ source }: Follower, spotOf: (atMs: number) => string) =>
  ({ where, atMs }: Moment): string =>
    `${where.state} ${roadNumber(source.roadAt(atMs))} ${source.semitonesAt(atMs)} ${spotOf(atMs)}`;

/** What the band noted for its bars and has not done yet. */
const notesByBar = (notes: readonly Note[]): ReadonlyMap<string, readonly string[]> => {
  const byBar = new Map<string, string[]>();
  for (const { bar, text, done } of notes) {
    if (!done) byBar.set(bar, [...(byBar.get(bar) ?? []), text]);
  }
  return byBar;
};

let lastRoad = 0;
const roads = new WeakMap<Road, number>();

/** Another number for each arrangement that is played: a new one may be taken while the band plays. */
const roadNumber = (road: Road): number => {
  const number = roads.get(road) ?? ++lastRoad;
  roads.set(road, number);
  return number;
};

type WithFollower = StandViewProps & { follower: Follower };

/** A tune that is on: whatever the moment asks for. */
export const PlayedStand = (
  props: WithFollower & { root: RefObject<HTMLElement | null>; onLanding: (ids: string) => void },
) => {
  const { follower, chart, music, settings, pointed, title, root, later } = props;
  // The stand's own element is not there yet when this is first drawn.
  const [page] = useState(() => ({ current: document.body }));
  const maxBars = useBarsPerLine(page);
  const keyOf = useMemo(
    () => standKey(follower, (atMs) => spotAt(follower, atMs, maxBars)?.key ?? ''),
    [follower, maxBars],
  );
  const { where, atMs } = useMoment(follower, keyOf);
  const modulation = follower.source.semitonesAt(atMs);
  const spot = spotAt(follower, atMs, maxBars);
  const { words, read } = useReader(props);
  const musicOf = useCallback((bar: RoadBar) => music?.get(bar.id) ?? bar.content.music, [music]);
  const road = follower.source.roadAt(follower.now());
  const [found, setFound] = useState<FoundSpots | null>(null);
  const [help, setHelp] = useState<Help | null>(null);
  const notes = useMemo(() => notesByBar(props.notes), [props.notes]);

  // In the very frame, and once more when something else of the stand is drawn.
  useFrames(follower, (at) => {
    if (root.current !== null && root.current.dataset['state'] !== at.state) {
      root.current.dataset['state'] = at.state;
    }
  });
  useEffect(() => {
    const stand = root.current;
    if (stand !== null) stand.dataset['state'] = follower.where().state;
    return () => {
      delete stand?.dataset['state'];
    };
  }, [follower, root]);

  if (where.state === 'ended') return later && <later.EndedMoment follower={follower} title={title} />;
  const waiting =
    where.state === 'waiting' ? (
      <WaitingMoment
        follower={follower}
        title={title}
        words={words(modulation)}
        tempoBpm={road.tempoBpm}
        head={chart?.head ?? {}}
      />
    ) : null;
  const count = where.state === 'count' ? <CountMoment follower={follower} /> : null;
  const lost =
    settings.lostWords && later !== null && found !== null ? (
      <later.LostWords follower={follower} found={found} />
    ) : null;
  return (
    <>
      {later !== null && (
        <later.LostFinder
          link={props.link}
          road={road}
          chart={chart}
          music={music}
          said={props.said}
          semitones={semitonesFor(settings) + modulation}
          onFound={setFound}
        />
      )}
      {later !== null && props.chartId !== null && (
        <later.HelpFinder
          chart={props.chartId}
          road={road}
          music={music}
          chartKey={chart?.head.key ?? road.key}
          part={settings.part}
          semitones={semitonesFor(settings)}
          notes={notes}
          onHelp={setHelp}
        />
      )}
      <div className="stand-where" data-quiet={waiting === null ? undefined : ''}>
        {where.state === 'count' ? (
          <p className="place-row place-leg">Count-in</p>
        ) : (
          <PlaceRow follower={follower} />
        )}
        <Flags follower={follower} onLanding={props.onLanding} />
      </div>
      {settings.reading === 'page' && chart !== null && music !== null && later !== null ? (
        <div className="stand-page" data-counting={count === null ? undefined : ''}>
          {count}
          <later.Page
            chart={chart}
            music={music}
            read={(symbol, key) => read(symbol, key, modulation)}
            pointed={pointed}
            lost={found?.ids ?? null}
            follower={follower}
          />
          {lost}
        </div>
      ) : spot !== null && waiting === null && later !== null ? (
        <div className="stand-page" data-counting={count === null ? undefined : ''}>
          {count}
          <later.Spot follower={follower} musicOf={musicOf} read={read} help={help} />
        </div>
      ) : (
        <Roll follower={follower} musicOf={musicOf} read={read} pointed={pointed} help={help}>
          {waiting ?? count}
          {lost}
        </Roll>
      )}
      <Foot
        follower={follower}
        found={found}
        remark={later && <later.CompCounts part={settings.part} feel={chart?.head.feel ?? ''} road={road} />}
      />
    </>
  );
};
