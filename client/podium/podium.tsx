import { useEffect, useMemo, useState } from 'react';
import { readBars } from '../../common/chart/read-bars.ts';
import { mayLead } from '../../common/protocol/roles.ts';
import { performanceSource } from '../stand/performance-source.ts';
import { stayAwake } from '../stand/stay-awake.ts';
import { useFollower } from '../stand/use-follower.ts';
import { useBoard } from '../state/board-context.tsx';
import { useObservable } from '../state/observable.ts';
import { tabletSettings } from '../storage/tablet-settings.ts';
import { Leading } from './leading.tsx';
import { TapScreen } from './tap-screen.tsx';
import { TuneList } from './tune-list.tsx';
import { useCalling } from './use-calling.ts';
import { useStageChart } from './use-stage-chart.ts';
import './podium.css';
import './podium-sizes.css';
import './low-screen.css';

/** The Podium: whoever leads counts in, calls cues and takes them back from here; who was lent the taps taps. */
export const Podium = () => {
  const board = useBoard();
  const link = useObservable(board.link);
  const leading = useObservable(board.leading);
  const calling = useCalling(board);
  useEffect(() => stayAwake(() => {}), []);
  return (
    <main className="podium" data-link={link.state}>
      {link.state === 'away' && (
        <p className="strip" data-family="out" data-strip="away" role="status">
          The relay does not answer: no cue goes out.
          <span className="podium-more">The band plays on by itself.</span>
        </p>
      )}
      {calling.words !== null && (
        <p className="strip podium-words" data-family="feel" role="alert">
          {calling.words}
        </p>
      )}
      {mayLead(board.role, board.member, leading) ? (
        <PodiumOfTheLeader calling={calling} />
      ) : leading.taps === board.member ? (
        <TapScreen calling={calling} />
      ) : (
        <p className="podium-not dim">
          Somebody else leads now. Ask for the baton, or read along on the Stand.
        </p>
      )}
    </main>
  );
};

const PodiumOfTheLeader = ({ calling }: { readonly calling: ReturnType<typeof useCalling> }) => {
  const board = useBoard();
  const { take, performance } = useObservable(board.stage);
  const link = useObservable(board.link);
  const book = useObservable(board.book);
  const { part, concert } = useObservable(tabletSettings);
  const { chart, said, edited, chartKey } = useStageChart(board);
  const [choosingTune, setChoosingTune] = useState(false);
  const source = useMemo(() => (performance === null ? null : performanceSource(performance)), [performance]);
  const follower = useFollower(source, board.sharedNow);
  const music = useMemo(() => (chart === null ? null : readBars(chart).music), [chart]);

  if (take === null || performance === null || follower === null || choosingTune) {
    return (
      <TuneList
        charts={book.charts}
        playing={take?.chart ?? null}
        away={link.state !== 'on'}
        onCall={async (cue) => {
          if (await calling.call(cue)) setChoosingTune(false);
        }}
        {...(take === null ? {} : { onClose: () => setChoosingTune(false) })}
      />
    );
  }
  return (
    <Leading
      title={take.title}
      performance={performance}
      follower={follower}
      chart={chart}
      music={music}
      said={said}
      edited={edited}
      chartKey={chartKey}
      reader={{ part, concert }}
      calling={calling}
      onTunes={() => setChoosingTune(true)}
    />
  );
};
