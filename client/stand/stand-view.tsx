import { type ReactNode, type RefObject, useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import type { Chart } from '../../common/chart/chart.ts';
import type { LostSpotsSaid } from '../../common/document/lost-spots-said.ts';
import type { Note } from '../../common/document/notes.ts';
import type { Road, RoadBar } from '../../common/form/road.ts';
import type { LinkState } from '../state/link-state.ts';
import type { Observable } from '../state/observable.ts';
import type { FoundSpots } from './find-lost-spots.ts';
import { Flags } from './flags.tsx';
import type { Follower, Moment } from './follower.ts';
import { Foot } from './foot.tsx';
import { Header, type Standing } from './header.tsx';
import type { Help } from './help/help-on-stand.ts';
import type { LaterParts } from './later-parts.ts';
import { CountMoment, NoTuneMoment, WaitingMoment } from './moments.tsx';
import { PlaceRow } from './place-row.tsx';
import { keyWords, modulatingReader, semitonesFor } from './reader-key.ts';
import { Roll } from './roll.tsx';
import type { StandSettings } from './settings-panel.tsx';
import { spotAt } from './spot-at.ts';
import type { StandSource } from './stand-source.ts';
import type { Awake } from './stay-awake.ts';
import { useFollower, useFrames, useMoment } from './use-follower.ts';
import './stand-view.css';

interface Strip {
  readonly id: string;
  readonly words: string;
  readonly family?: string;
  readonly keys?: ReactNode;
}

export interface StandViewProps {
  /** '' where no tune is shown. */
  title: string;
  /** The chart as it stands now; null until it is here. */
  chart: Chart | null;
  chartId: string | null;
  /** Pinned to its bars. */
  notes: readonly Note[];
  /** What its bars hold, by bar id; null until they are read. */
  music: ReadonlyMap<string, BarMusic> | null;
  /** What is said of its lost spots; null until it is here. */
  said: LostSpotsSaid | null;
  link: Observable<LinkState>;
  /** The take; null for a chart that is only read, and where no tune was called. */
  source: StandSource | null;
  sharedNow: () => number;
  settings: StandSettings;
  onSettings: (fields: Partial<StandSettings>) => void;
  standing: Standing;
  /** Sentences above the music that nobody has to answer: "playing on by ourselves". */
  strips: readonly Strip[];
  /** The tune that is on, where something else is being read. */
  called: { readonly title: string; readonly words: string } | null;
  onFollow: () => void;
  pointed: string | null;
  /** Who leads: ''  where nobody does. */
  leads: string;
  /** How exact the clock is; null while it is being found. Only watched where it is read. */
  errorMs: Observable<number | null>;
  awake: Awake;
  later: LaterParts | null;
}

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

const NONE_LOST: ReadonlySet<string> = new Set();

let lastRoad = 0;
const roads = new WeakMap<Road, number>();

/** Another number for each arrangement that is played: a new one may be taken while the band plays. */
const roadNumber = (road: Road): number => {
  const number = roads.get(road) ?? ++lastRoad;
  roads.set(road, number);
  return number;
};

/** Everything a player reads while playing, from plain values. */
export const StandView = (props: StandViewProps) => {
  const { source, sharedNow, settings, onSettings, strips, called, onFollow, errorMs, later } = props;
  const [panel, setPanel] = useState(false);
  // Once opened it stays, unseen: the click in one's ear goes on.
  const [opened, setOpened] = useState(false);
  if (panel && !opened) setOpened(true);
  const closePanel = useCallback(() => setPanel(false), []);
  const follower = useFollower(source, sharedNow);
  const root = useRef<HTMLElement>(null);
  const onLanding = useCallback((ids: string) => {
    if (root.current !== null) root.current.dataset['landing'] = ids;
  }, []);
  return (
    <main className="stand" ref={root} data-landing="" data-reading={settings.reading}>
      <StandHead {...props} follower={follower} panel={panel} onPanel={() => setPanel((open) => !open)} />
      <div className="stand-strips">
        {called !== null && (
          <div className="strip" data-family="move" data-strip="new-tune" role="status">
            <span>
              {called.words} <b>{called.title}</b>
            </span>
            <button type="button" className="button" onClick={onFollow}>
              follow
            </button>
          </div>
        )}
        {strips.map(({ id, words, family, keys }) => (
          <div className="strip" key={id} data-family={family} data-strip={id}>
            <span role="status">{words}</span>
            {keys}
          </div>
        ))}
      </div>
      {follower === null ? (
        <StillStand {...props} />
      ) : (
        <PlayedStand {...props} follower={follower} root={root} onLanding={onLanding} />
      )}
      {(panel || opened) && later !== null && (
        <div className="stand-panel-place" hidden={!panel}>
          <later.SettingsPanel
            settings={settings}
            onChange={onSettings}
            open={panel}
            feel={props.chart?.head.feel ?? ''}
            onClose={closePanel}
            errorMs={errorMs}
            awake={props.awake}
          />
        </div>
      )}
    </main>
  );
};

type WithFollower = StandViewProps & { follower: Follower };

/** How this reader reads the chart: a chord in its bar, and the key in words when it is played so much higher. */
const useReader = ({ chart, settings }: StandViewProps) => {
  const key = chart?.head.key ?? '';
  const { part, concert, noteNames } = settings;
  return useMemo(
    () => ({
      read: modulatingReader(key, semitonesFor({ part, concert })),
      words: (modulation: number) => keyWords(key, { part, concert }, modulation, noteNames),
    }),
    [key, part, concert, noteNames],
  );
};

const StandHead = (
  props: StandViewProps & { follower: Follower | null; panel: boolean; onPanel: () => void },
) => {
  const { follower, title, chart, standing } = props;
  const { words } = useReader(props);
  const road = follower?.source.roadAt(follower.now());
  return (
    <Header
      title={title === '' ? 'Stand' : title}
      keyWords={words}
      feel={chart?.head.feel ?? ''}
      tempoBpm={road?.tempoBpm ?? null}
      compound={road?.legs[0]?.bars[0]?.content.music.metre.compound ?? false}
      follower={follower}
      standing={standing}
      panelOpen={props.panel}
      onPanel={props.onPanel}
    />
  );
};

/** A chart that is only read, or no tune at all. */
const StillStand = (props: StandViewProps) => {
  const { chart, music, later, pointed } = props;
  const { read } = useReader(props);
  const [found, setFound] = useState<FoundSpots | null>(null);
  if (props.title === '') return <NoTuneMoment leads={props.leads} />;
  if (chart === null || music === null || later === null) {
    return <p className="stand-loading">One moment …</p>;
  }
  return (
    <>
      <later.LostFinder
        link={props.link}
        road={null}
        chart={chart}
        music={music}
        said={props.said}
        semitones={semitonesFor(props.settings)}
        onFound={setFound}
      />
      <later.Page
        chart={chart}
        music={music}
        read={read}
        pointed={pointed}
        lost={found?.ids ?? NONE_LOST}
        follower={null}
      />
    </>
  );
};

const PlayedStand = (
  props: WithFollower & { root: RefObject<HTMLElement | null>; onLanding: (ids: string) => void },
) => {
  const { follower, chart, music, settings, pointed, title, root, later } = props;
  const keyOf = useMemo(() => standKey(follower, (atMs) => spotAt(follower, atMs)?.key ?? ''), [follower]);
  const { where, atMs } = useMoment(follower, keyOf);
  const modulation = follower.source.semitonesAt(atMs);
  const spot = spotAt(follower, atMs);
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
            lost={found?.ids ?? NONE_LOST}
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
