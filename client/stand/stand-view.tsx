import { useCallback, useRef, useState } from 'react';
import type { Follower } from './follower.ts';
import { Header } from './header.tsx';
import { PlayedStand } from './played-stand.tsx';
import type { StandViewProps } from './stand-props.ts';
import { StillStand } from './still-stand.tsx';
import { useFollower } from './use-follower.ts';
import { useReader } from './use-reader.ts';
import './stand-view.css';

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
