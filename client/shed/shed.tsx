import { useMemo, useState } from 'react';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import { readBars } from '../../common/chart/read-bars.ts';
import { Podium } from '../podium/podium.tsx';
import { Stand } from '../stand/stand.tsx';
import { useChart } from '../stand/use-chart.ts';
import { BoardContext, useBoard } from '../state/board-context.tsx';
import type { ChartState } from '../state/chart-handle.ts';
import { useObservable } from '../state/observable.ts';
import { openChart } from '../state/open-chart.ts';
import { tabStore } from '../storage/browser-stores.ts';
import { aloneNow } from './alone-board.ts';
import { DrillRoom } from './drill-room.tsx';
import { ROOMS, type Room, readKeptShed } from './kept-shed.ts';
import { SoundPage } from './sound-page.tsx';
import { Study } from './study.tsx';
import { useAloneBoard } from './use-alone-board.ts';
import { useKeepShed } from './use-keep-shed.ts';
import { useKeyCycle } from './use-key-cycle.ts';
import { useOnStage } from './use-on-stage.ts';
import { usePracticeBand } from './use-practice-band.ts';
import './shed.css';

/** The Shed: a player alone with a chart, to study it and to play it against the practice band. */
export const Shed = ({ chart: id }: { readonly chart: string }) => {
  const board = useBoard();
  const state = useChart(board, id, openChart);
  const { charts } = useObservable(board.book);
  const isUnknown = charts.length > 0 && !charts.some((one) => one.id === id);
  const chart = state?.chart ?? null;
  const music = useMemo(() => (chart === null ? null : readBars(chart).music), [chart]);
  if (isUnknown || state === null || music === null) {
    return (
      <main className="page shed">
        <p className="dim">
          {isUnknown ? 'There is no such chart in the book. Choose another in the Book.' : 'One moment …'}
        </p>
      </main>
    );
  }
  return <OpenShed key={id} id={id} state={state} music={music} />;
};

const ROOM_WORDS: Readonly<Record<Room, string>> = {
  study: 'Study',
  stand: 'Read',
  podium: 'Lead',
  drill: 'Drill',
  sound: 'Band',
};

/** What ended with the page that was loaded anew, and what to do. */
const LOST_WORDS = {
  sound: 'The page was loaded anew, and a browser gives sound after a touch only: touch “switch sound on”.',
  round: 'The page was loaded anew: that round is over, and what you had answered counts.',
} as const;

interface OpenShedProps {
  readonly id: string;
  readonly state: ChartState;
  readonly music: ReadonlyMap<string, BarMusic>;
}

const OpenShed = ({ id, state, music }: OpenShedProps) => {
  const [kept] = useState(() => readKeptShed(tabStore, id, aloneNow()));
  const alone = useAloneBoard(id, state.chart, kept?.take ?? null);
  const [room, setRoom] = useState<Room>(kept?.room ?? 'study');
  const [lost, setLost] = useState(kept?.lost ?? null);
  useKeyCycle(alone, room !== 'drill');
  const onStage = useOnStage(alone, id, state.chart);
  const band = usePracticeBand(alone, onStage);
  const hasSound = band.state !== 'off';
  const keepRound = useKeepShed(id, alone, room, hasSound || lost === 'sound' ? 'sound' : null);
  const switchSound = () => {
    setLost(null);
    if (hasSound) band.switchOff();
    else band.switchOn();
  };
  return (
    <div className="shed-frame" data-room={room}>
      <nav className="shed-rooms" aria-label="the Shed" data-print="no">
        {ROOMS.map((name) => (
          <button
            key={name}
            type="button"
            className="shed-room"
            aria-current={room === name ? 'page' : undefined}
            onClick={() => {
              setRoom(name);
              setLost(lost === 'round' ? null : lost);
            }}
          >
            {ROOM_WORDS[name]}
          </button>
        ))}
        <button type="button" className="shed-room shed-sound" onClick={switchSound}>
          {band.state === 'off'
            ? 'switch sound on'
            : band.state === 'coming'
              ? 'one moment …'
              : 'switch sound off'}
        </button>
      </nav>
      {(band.words !== '' || lost !== null) && (
        <p className="strip" data-family="out" role="alert">
          {band.words !== '' || lost === null ? band.words : LOST_WORDS[lost]}
        </p>
      )}
      <div className="shed-room-place">
        {room === 'study' && <Study id={id} state={state} music={music} />}
        {room !== 'study' && (
          <BoardContext value={alone}>
            {room === 'stand' && <Stand />}
            {room === 'podium' && <Podium />}
            {room === 'drill' && (
              <DrillRoom id={id} alone={alone} state={state} music={music} onCutShort={keepRound} />
            )}
            {room === 'sound' && <SoundPage title={onStage.title} metre={onStage.metre} band={band} />}
          </BoardContext>
        )}
      </div>
    </div>
  );
};
