import { useEffect, useMemo, useState } from 'react';
import type { Chart } from '../../common/chart/chart.ts';
import { roadShape } from '../../common/form/road-shape.ts';
import { unroll } from '../../common/form/unroll.ts';
import type { Take } from '../../common/stage/cue.ts';
import { roadAt } from '../../common/stage/in-force.ts';
import { locate } from '../../common/stage/locate.ts';
import { useBoard } from '../state/board-context.tsx';
import { makeId } from '../state/make-id.ts';
import { settable, useObservable } from '../state/observable.ts';
import type { Person } from '../state/person.ts';
import { tabletSettings } from '../storage/tablet-settings.ts';
import { type AloneBoard, aloneBoard } from './alone-board.ts';

/**
 * A stage of one's own with this tune on it. What the band edits meanwhile is taken while nothing plays; another name or
 * instrument changes nothing of what plays.
 * @param kept what was on it before the page was loaded anew; null begins with the tune as it is written
 */
export const useAloneBoard = (id: string, chart: Chart, kept: Take | null): AloneBoard => {
  const board = useBoard();
  const road = useMemo(() => unroll(chart).road, [chart]);
  const people = useMe(board.member);
  // biome-ignore lint/correctness/useExhaustiveDependencies: edits are adopted below, the board stays
  const alone = useMemo(() => {
    const fresh = { id: makeId(), chart: id, title: chart.head.title ?? '', road, cues: [] };
    return aloneBoard(board, people, kept ?? fresh);
  }, [board, id, people]);
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

/** Whoever sits at this tablet, as somebody on the stage. */
const useMe = (member: string) => {
  const { name, part } = useObservable(tabletSettings);
  const [people] = useState(() => settable<readonly Person[]>([]));
  useEffect(() => {
    const me = {
      member,
      name,
      part,
      role: 'player',
      colour: 0,
      errorMs: 0,
      point: null,
      isMe: true,
    } as const;
    people.set([me]);
  }, [people, member, name, part]);
  return people;
};
