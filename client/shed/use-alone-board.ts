import { useEffect, useMemo } from 'react';
import type { Chart } from '../../common/chart/chart.ts';
import { roadShape } from '../../common/form/road-shape.ts';
import { unroll } from '../../common/form/unroll.ts';
import { roadAt } from '../../common/stage/in-force.ts';
import { locate } from '../../common/stage/locate.ts';
import { useBoard } from '../state/board-context.tsx';
import { makeId } from '../state/make-id.ts';
import { useObservable } from '../state/observable.ts';
import { tabletSettings } from '../storage/tablet-settings.ts';
import { type AloneBoard, aloneBoard } from './alone-board.ts';

/** A stage of one's own with this tune on it. What the band edits meanwhile is taken while nothing plays. */
export const useAloneBoard = (id: string, chart: Chart): AloneBoard => {
  const board = useBoard();
  const { name, part } = useObservable(tabletSettings);
  const road = useMemo(() => unroll(chart).road, [chart]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: edits are adopted below, the board stays
  const alone = useMemo(() => {
    const me = {
      member: board.member,
      name,
      part,
      role: 'player' as const,
      colour: 0,
      errorMs: 0,
      point: null,
      isMe: true,
    };
    return aloneBoard(board, me, { id: makeId(), chart: id, title: chart.head.title ?? '', road, cues: [] });
  }, [board, id, name, part]);
  const { take, performance } = useObservable(alone.stage);
  useEffect(() => {
    if (take?.chart !== id || performance === null) return;
    const nowMs = alone.sharedNow();
    const { state } = locate(performance, nowMs);
    const isStill = state === 'waiting' || state === 'ended';
    if (isStill && roadShape(roadAt(performance, nowMs)) !== roadShape(road)) {
      void alone.call({ kind: 'adopt', road });
    }
  }, [alone, id, road, take, performance]);
  return alone;
};
