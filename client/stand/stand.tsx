import { useCallback, useEffect, useMemo, useState } from 'react';
import type { Note } from '../../common/document/notes.ts';
import { locate } from '../../common/stage/locate.ts';
import { useBoard } from '../state/board-context.tsx';
import { derive } from '../state/derive.ts';
import type { LinkState } from '../state/link-state.ts';
import { useObservable } from '../state/observable.ts';
import type { Person } from '../state/person.ts';
import { tabletSettings } from '../storage/tablet-settings.ts';
import type { Standing } from './header.tsx';
import type { LaterParts } from './later-parts.ts';
import { leadName } from './lead-name.ts';
import { performanceSource } from './performance-source.ts';
import type { StandViewProps } from './stand-props.ts';
import { StandView } from './stand-view.tsx';
import type { Awake } from './stay-awake.ts';
import { useChart } from './use-chart.ts';
import { useLaterParts } from './use-later-parts.ts';
import { useOwnWay } from './use-own-way.ts';
import { reseekWords, useReseek } from './use-reseek.ts';

const NO_NOTES: readonly Note[] = [];

const useAwake = (later: LaterParts | null): Awake => {
  const [awake, setAwake] = useState<Awake>('no');
  useEffect(() => later?.stayAwake(setAwake), [later]);
  return awake;
};

const standingOf = (link: LinkState, inTime: boolean, leads: string): Standing => {
  if (link.state === 'away' || link.state === 'closed') return { state: 'away', words: 'by ourselves' };
  if (link.state === 'finding' || !inTime) return { state: 'finding', words: 'finding the beat' };
  return { state: 'on', words: leads === '' ? 'in time' : `${leads} leads` };
};

const AWAY = 'Playing on by ourselves. The relay does not answer.';

const stripsOf = (
  link: LinkState,
  finding: boolean,
  reseekMs: number | null,
  { stage, setOwn, justBack }: ReturnType<typeof useOwnWay>,
  OwnWay: LaterParts['OwnWay'] | undefined,
): StandViewProps['strips'] => {
  if (link.state === 'away')
    return [{ id: 'away', words: AWAY, keys: OwnWay && <OwnWay {...stage} onTake={setOwn} /> }];
  if (justBack) return [{ id: 'back', words: 'Back with the band.', family: 'move' }];
  if (finding) return [{ id: 'finding', words: 'Finding the beat …' }];
  if (reseekMs !== null) return [{ id: 'reseek', words: reseekWords(reseekMs), family: 'feel' }];
  return [];
};

/** The bar that somebody points at in this chart; the leader before others. */
const pointedIn = (people: readonly Person[], chart: string | null): string | null => {
  const pointing = people.filter((person) => person.point !== null && person.point.chart === chart);
  const first = pointing.find((person) => person.role === 'leader') ?? pointing[0];
  return first?.point?.bar ?? null;
};

/**
 * The Stand: what a player reads while playing. Without `chart` it follows the tune that is called; with one it
 * shows that chart, and says so when another tune is on.
 */
export const Stand = ({ chart: asked, onFollow }: { chart?: string; onFollow?: () => void }) => {
  const board = useBoard();
  const people = useObservable(board.people);
  const leading = useObservable(board.leading);
  const link = useObservable(board.link);
  const later = useLaterParts(board);
  const ownWay = useOwnWay(useObservable(board.stage), link);
  const { take, performance } = ownWay.stage;
  // How exact the clock is changes every second; that it can be trusted hardly ever.
  const [ready] = useState(() => derive([board.clock], (clock) => clock.ready));
  const [errorMs] = useState(() => derive([board.clock], (clock) => clock.errorMs));
  const inTime = useObservable(ready);
  const reseekMs = useReseek(board, () => {
    const state = performance === null ? 'waiting' : locate(performance, board.sharedNow()).state;
    return state === 'count' || state === 'playing' || state === 'held';
  });
  const book = useObservable(board.book);
  const { part, concert, theme, reading, noteNames, lostWords } = useObservable(tabletSettings);
  const awake = useAwake(later);
  // Following is for this visit; looking at another chart begins anew.
  const [followed, setFollowed] = useState<string | null>(null);
  useEffect(() => {
    if (asked !== followed) setFollowed(null);
  }, [asked, followed]);
  const own = asked !== undefined && asked !== followed ? asked : null;
  const shown = own ?? take?.chart ?? null;
  const played = take !== null && shown === take.chart;
  const state = useChart(board, shown, later?.openChart);
  const chart = state?.chart ?? null;
  const music = useMemo(() => (chart && later ? later.readBars(chart).music : null), [chart, later]);
  const source = useMemo(
    () => (played && performance !== null ? performanceSource(performance) : null),
    [played, performance],
  );
  const follow = useCallback(() => {
    setFollowed(asked ?? null);
    onFollow?.();
  }, [asked, onFollow]);
  const leads = leadName(people, leading);
  const entry = book.charts.find(({ id }) => id === shown);
  return (
    <StandView
      title={chart?.head.title ?? entry?.title ?? (played ? take.title : shown === null ? '' : 'A chart')}
      chart={chart}
      chartId={shown}
      notes={state?.notes ?? NO_NOTES}
      music={music}
      said={state?.said ?? null}
      link={board.link}
      source={source}
      sharedNow={board.sharedNow}
      settings={{ part, concert, theme, reading, noteNames, lostWords }}
      onSettings={tabletSettings.change}
      standing={standingOf(link, inTime, leads)}
      strips={stripsOf(link, take !== null && !inTime, reseekMs, ownWay, later?.OwnWay)}
      called={
        take !== null && !played
          ? { title: take.title, words: leads === '' ? 'The tune that is on:' : `${leads} called` }
          : null
      }
      onFollow={follow}
      pointed={pointedIn(people, shown)}
      leads={leads}
      errorMs={errorMs}
      awake={awake}
      later={later}
    />
  );
};
