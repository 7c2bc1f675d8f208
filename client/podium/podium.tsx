import { useEffect, useMemo, useState } from 'react';
import { readBars } from '../../common/chart/read-bars.ts';
import type { Road } from '../../common/form/road.ts';
import { roadShape } from '../../common/form/road-shape.ts';
import { unroll } from '../../common/form/unroll.ts';
import { performanceSource } from '../stand/performance-source.ts';
import { stayAwake } from '../stand/stay-awake.ts';
import { useChart } from '../stand/use-chart.ts';
import { useFollower } from '../stand/use-follower.ts';
import { useBoard } from '../state/board-context.tsx';
import { useObservable } from '../state/observable.ts';
import { tabletSettings } from '../storage/tablet-settings.ts';
import { Leading } from './leading.tsx';
import { TuneList } from './tune-list.tsx';
import { useCalling } from './use-podium.ts';
import './podium.css';

/** The Podium: whoever leads counts in, calls cues and takes them back from here. */
export const Podium = () => {
  const board = useBoard();
  const { take, performance } = useObservable(board.stage);
  const link = useObservable(board.link);
  const book = useObservable(board.book);
  const { part, concert } = useObservable(tabletSettings);
  const chart = useChart(board, take?.chart ?? null);
  const calling = useCalling(board);
  const [choosingTune, setChoosingTune] = useState(false);
  useEffect(() => stayAwake(() => {}), []);

  const source = useMemo(() => (performance === null ? null : performanceSource(performance)), [performance]);
  const follower = useFollower(source, board.sharedNow);

  const music = useMemo(() => (chart === null ? null : readBars(chart).music), [chart]);
  /** The chart's road as edited meanwhile. */
  const road = useMemo<Road | null>(() => (chart === null ? null : unroll(chart).road), [chart]);
  const shape = useMemo(() => (road === null ? '' : roadShape(road)), [road]);

  const tunes = (
    <TuneList
      charts={book.charts}
      playing={take?.chart ?? null}
      away={link.state === 'away'}
      onCall={async (cue) => {
        if (await calling.call(cue)) setChoosingTune(false);
      }}
      {...(take === null ? {} : { onClose: () => setChoosingTune(false) })}
    />
  );
  return (
    <main className="podium" data-link={link.state}>
      {link.state === 'away' && (
        <p className="strip" data-family="out" data-strip="away" role="status">
          The relay does not answer. The band plays on by itself; cues wait until the relay is back.
        </p>
      )}
      {calling.words !== null && (
        <p className="strip podium-words" data-family="feel" role="alert">
          {calling.words}
        </p>
      )}
      {take === null || performance === null || follower === null || choosingTune ? (
        tunes
      ) : (
        <Leading
          title={take.title}
          performance={performance}
          follower={follower}
          music={music}
          edited={road !== null && shape !== roadShape(follower.source.roadAt(follower.now())) ? road : null}
          chartKey={chart?.head.key ?? take.road.key}
          reader={{ part, concert }}
          calling={calling}
          onTunes={() => setChoosingTune(true)}
        />
      )}
    </main>
  );
};
