import type { Road } from '../../common/form/road.ts';
import type { Cue } from '../../common/stage/cue.ts';
import { judge } from '../../common/stage/judge.ts';
import type { Performance } from '../../common/stage/perform.ts';
import type { Announcement, Where } from '../../common/stage/place.ts';
import { type Follower, type Moment, momentKey } from '../stand/follower.ts';
import { useMoment } from '../stand/use-follower.ts';
import { useBoard } from '../state/board-context.tsx';
import { useObservable } from '../state/observable.ts';
import type { PodiumSettings } from '../storage/podium-settings.ts';
import { podiumSettings } from '../storage/tablet-podium.ts';
import { pressTime } from './press-time.ts';
import type { useCalling } from './use-calling.ts';

/** What every part of the podium goes by. Made anew once a beat. */
export interface PodiumMoment {
  readonly performance: Performance;
  readonly follower: Follower;
  readonly where: Where;
  /** Shared time of this moment. */
  readonly nowMs: number;
  /** The road in force. */
  readonly road: Road;
  readonly announced: readonly Announcement[];
  /** The band plays, counts or holds. */
  readonly rolling: boolean;
  /** The relay does not answer: nothing can be called, and a press is told so. */
  readonly away: boolean;
  readonly settings: PodiumSettings;
  /** Whether that cue makes sense now. */
  readonly isFree: (cue: Cue) => boolean;
  /** Calls one after the other, as long as they are taken. */
  readonly call: (...cues: readonly Cue[]) => void;
  readonly takeBack: (id: string) => void;
  /** Shared time of an event's `timeStamp`. */
  readonly pressedAt: (stampMs: number) => number;
}

const beatKey = ({ where }: Moment): string => momentKey(where);

const callEach = async (calling: ReturnType<typeof useCalling>, cues: readonly Cue[]): Promise<void> => {
  for (const cue of cues) if (!(await calling.call(cue))) return;
};

export const usePodiumMoment = (
  played: Performance,
  follower: Follower,
  calling: ReturnType<typeof useCalling>,
): PodiumMoment => {
  const board = useBoard();
  const link = useObservable(board.link);
  const settings = useObservable(podiumSettings);
  const { where, atMs } = useMoment(follower, beatKey);
  const away = link.state !== 'on';
  const nowMs = board.sharedNow();
  return {
    performance: played,
    follower,
    where,
    nowMs,
    road: follower.source.roadAt(atMs),
    announced: follower.source.announced(atMs),
    rolling: where.state === 'playing' || where.state === 'count' || where.state === 'held',
    away,
    settings,
    isFree: (cue) => judge(played, cue, nowMs).ok,
    call: (...cues) => void callEach(calling, cues),
    takeBack: (id) => void calling.takeBack(id),
    pressedAt: (stampMs) => pressTime(stampMs, performance.now(), board.sharedNow()),
  };
};
