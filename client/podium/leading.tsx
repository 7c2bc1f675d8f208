import { useState } from 'react';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import type { Chart } from '../../common/chart/chart.ts';
import type { LostSpotsSaid } from '../../common/document/lost-spots-said.ts';
import type { RoadBar } from '../../common/form/road.ts';
import type { Performance } from '../../common/stage/perform.ts';
import { useNoteNames } from '../engraving/note-names.ts';
import type { Follower } from '../stand/follower.ts';
import { leadName } from '../stand/lead-name.ts';
import { PlaceRow } from '../stand/place-row.tsx';
import { modulatingReader, type Reader, semitonesFor } from '../stand/reader-key.ts';
import { useBoard } from '../state/board-context.tsx';
import { useObservable } from '../state/observable.ts';
import { CalledRow } from './called-row.tsx';
import { ChartArea } from './chart-area.tsx';
import { tickOnKeys } from './haptic-tick.ts';
import { HeadKeys, type HeadKeysProps, type PodiumSheet } from './head-keys.tsx';
import { keyMatter } from './key-matter.ts';
import { legNow, type Stretch } from './letters.ts';
import { type Edited, offersNow } from './offers.ts';
import { PodiumFoot } from './podium-foot.tsx';
import type { PadPage } from './podium-key.ts';
import { usePodiumMoment } from './podium-moment.ts';
import { PodiumSheets } from './podium-sheets.tsx';
import { Screen } from './screen.tsx';
import { Side } from './side.tsx';
import { pickedSoloists } from './soloists-picked.ts';
import { goalOf, touchBar } from './spot-choice.ts';
import { standsInTime } from './stands-in-time.ts';
import type { useCalling } from './use-calling.ts';
import { useLostWords } from './use-lost-words.ts';

export interface LeadingProps {
  readonly title: string;
  readonly performance: Performance;
  readonly follower: Follower;
  readonly chart: Chart | null;
  readonly music: ReadonlyMap<string, BarMusic> | null;
  /** What is said of its lost spots. */
  readonly said: LostSpotsSaid | null;
  /** The chart as edited meanwhile, where it is another arrangement than the one being played. */
  readonly edited: Edited | null;
  readonly chartKey: string;
  readonly reader: Reader;
  readonly calling: ReturnType<typeof useCalling>;
  readonly onTunes: () => void;
}

/** The podium while a tune is on: where we are, what is called, and the keys. Rendered once a beat. */
export const Leading = (props: LeadingProps) => {
  const { title, performance, follower, chart, music, said, edited, chartKey, reader, calling, onTunes } =
    props;
  const board = useBoard();
  const people = useObservable(board.people);
  const leading = useObservable(board.leading);
  const picked = useObservable(pickedSoloists);
  const moment = usePodiumMoment(performance, follower, calling);
  const { where, nowMs, road, rolling, settings } = moment;
  const names = useNoteNames();
  const [page, setPage] = useState<PadPage>('form');
  const [sheet, setSheet] = useState<PodiumSheet | null>(null);
  const [chosen, setChosen] = useState<Stretch | null>(null);
  const [pointed, setPointed] = useState<string | null>(null);
  const [chosenLeg, setChosenLeg] = useState<string | null>(null);
  const [goalBpm, setGoalBpm] = useState<number | null>(null);

  const spotting = page === 'spot';
  const choosing = spotting || !rolling;
  const playedLeg = 'place' in where ? where.place.leg : null;
  const leg = legNow(road, choosing && chosenLeg !== null ? chosenLeg : playedLeg);
  const matter = keyMatter(performance, nowMs, {
    settings,
    edited: edited?.road ?? null,
    chartKey,
    picked,
    names,
  });
  const read = modulatingReader(chartKey, semitonesFor(reader));
  const modulation = follower.source.semitonesAt(nowMs);
  const lost = useLostWords(moment, { chart, music, said, semitones: semitonesFor(reader) + modulation });

  const choose = (next: Stretch | null, id: string | null) => {
    setChosen(next);
    setPointed(id);
    board.point(id === null ? null : { chart: performance.take.chart, bar: id });
  };
  const turnTo = (next: PadPage) => {
    // What was chosen to be looped is no bar to do something else with.
    if (spotting && next !== 'spot') choose(null, null);
    setPage(next);
  };
  const head: HeadKeysProps = {
    bpm: matter.bpm,
    away: moment.away,
    rolling,
    leads: leadName(people, leading),
    onTempo: (bpm) => moment.call({ kind: 'tempo', bpm }),
    onTunes,
    onSheet: setSheet,
  };
  return (
    <div className="leading" data-hand={settings.hand} onPointerDownCapture={tickOnKeys(settings.haptic)}>
      <header className="podium-head">
        <div className="podium-title">
          <h1>{title === '' ? 'Untitled' : title}</h1>
          <PlaceRow follower={follower} />
          {where.state === 'waiting' && <p className="dim">ready to count in</p>}
          {where.state === 'ended' && <p className="dim">ended</p>}
          <p className="podium-time" data-clock-note>
            {standsInTime(people)}
          </p>
        </div>
        <HeadKeys {...head} />
      </header>
      <ChartArea
        follower={follower}
        where={where}
        road={road}
        leg={leg}
        choosing={choosing}
        chosen={chosen}
        pointed={pointed}
        musicOf={(bar: RoadBar) => music?.get(bar.id) ?? bar.content.music}
        read={read}
        modulation={modulation}
        onLeg={setChosenLeg}
        onTouch={(to, barIndex, id) => choose(touchBar(spotting ? chosen : null, to, barIndex), id)}
      />
      <CalledRow moment={moment} offers={offersNow(moment, edited)} lost={lost} />
      <div className="podium-pads">
        <Screen
          moment={moment}
          matter={matter}
          page={page}
          people={people}
          chosen={chosen}
          goalBpm={goalOf(goalBpm, matter.writtenBpm, matter.bpm)}
          onPage={turnTo}
          onGoal={setGoalBpm}
        />
        <Side moment={moment} page={page} onPage={turnTo} onMore={() => setSheet('more')} />
      </div>
      <PodiumFoot
        moment={moment}
        leg={leg}
        chosen={spotting ? null : chosen}
        onLoop={() => setPage('spot')}
        onDone={() => choose(null, null)}
      />
      {sheet !== null && <PodiumSheets sheet={sheet} calling={calling} head={head} onSheet={setSheet} />}
    </div>
  );
};
