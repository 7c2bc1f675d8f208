import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import type { RankedSpot } from '../../common/form/lost-spots/lost-spots.ts';
import type { Road } from '../../common/form/road.ts';
import { unroll } from '../../common/form/unroll.ts';
import { scoresOf } from '../../common/rehearsal/drill-scores.ts';
import { useNoteNames } from '../engraving/note-names.ts';
import { findLostSpots } from '../stand/find-lost-spots.ts';
import { semitonesFor } from '../stand/reader-key.ts';
import type { ChartState } from '../state/chart-handle.ts';
import { makeId } from '../state/make-id.ts';
import { useObservable } from '../state/observable.ts';
import type { DrillName } from '../storage/drill-results.ts';
import { tabletDrills } from '../storage/tablet-drills.ts';
import { tabletSettings } from '../storage/tablet-settings.ts';
import type { AloneBoard } from './alone-board.ts';
import { DrillChoice, type DrillRound } from './drill-choice.tsx';
import { dayOf } from './drill-days.ts';
import { DrillRunning } from './drill-running.tsx';
import { type DrillRun, runDrill } from './run-drill.ts';
import './drill.css';

export interface DrillRoomProps {
  readonly id: string;
  readonly alone: AloneBoard;
  readonly state: ChartState;
  readonly music: ReadonlyMap<string, BarMusic>;
  /** The page goes away in the midst of a round. */
  readonly onCutShort: () => void;
}

/** The cue drill and the lost-spot drill: chosen, run on the stage of one's own, and looked back on. */
export const DrillRoom = ({ id, alone, state, music, onCutShort }: DrillRoomProps) => {
  const road = useMemo(() => unroll(state.chart).road, [state.chart]);
  const spots = useSpots(road, state, music);
  const [running, setRunning] = useState<{ readonly run: DrillRun; readonly listens: boolean } | null>(null);
  const [round, setRound] = useState<DrillRound | null>(null);
  const now = useRef<{ readonly run: DrillRun; readonly name: DrillName } | null>(null);
  const title = state.chart.head.title ?? '';

  const fresh = useCallback(
    () => alone.setTake({ id: makeId(), chart: id, title, road, cues: [] }),
    [alone, id, title, road],
  );
  const begin = (name: DrillName, level: number, listens: boolean) => {
    fresh();
    const run = runDrill(alone, { name, level, listens, spotsOf: spots.ofLeg, dice: Math.random });
    now.current = { run, name };
    setRunning({ run, listens });
  };
  /** Ends the round and keeps what came of it. */
  const end = (): DrillRound | null => {
    if (now.current === null) return null;
    const { run, name } = now.current;
    now.current = null;
    const { answers, level } = run.stop();
    fresh();
    const of = { day: dayOf(new Date()), drill: name, chart: name === 'spots' ? id : '' };
    return { name, answers, kept: tabletDrills.add(of, scoresOf(answers), level) };
  };
  const latest = useRef(end);
  latest.current = end;
  // Whoever leaves the room ends the round; what was answered counts.
  useEffect(() => () => void latest.current(), []);
  useEffect(() => {
    const cutShort = () => {
      const over = latest.current();
      if (over === null) return;
      onCutShort();
      setRound(over);
      setRunning(null);
    };
    window.addEventListener('pagehide', cutShort);
    return () => window.removeEventListener('pagehide', cutShort);
  }, [onCutShort]);

  if (running !== null) {
    const stop = () => {
      setRound(end());
      setRunning(null);
    };
    return <DrillRunning alone={alone} run={running.run} listens={running.listens} onStop={stop} />;
  }
  return (
    <DrillChoice
      chart={id}
      title={title === '' ? 'this chart' : title}
      hasBars={road.legs.length > 0}
      spots={spots.byId}
      round={round}
      onBegin={begin}
    />
  );
};

interface Spots {
  readonly ofLeg: (leg: string) => readonly RankedSpot[];
  readonly byId: ReadonlyMap<string, RankedSpot>;
}

const useSpots = (road: Road, { said }: ChartState, music: DrillRoomProps['music']): Spots => {
  const { part, concert } = useObservable(tabletSettings);
  const names = useNoteNames();
  return useMemo(() => {
    const { ofLeg } = findLostSpots({ road }, semitonesFor({ part, concert }), { ...said, music, names });
    return {
      ofLeg: (leg) => ofLeg.get(leg) ?? [],
      byId: new Map([...ofLeg.values()].flat().map((spot) => [spot.id, spot])),
    };
  }, [road, said, music, part, concert, names]);
};
