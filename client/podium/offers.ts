import type { Road } from '../../common/form/road.ts';
import type { Cue } from '../../common/stage/cue.ts';
import { type LostLeg, lostLeg } from '../../common/stage/lost-leg.ts';
import { missedAt } from '../../common/stage/missed.ts';
import { isArrangementBack } from '../../common/stage/taken-arrangement.ts';
import type { PodiumMoment } from './podium-moment.ts';

/** Something that one touch can do just now, and that is gone again soon. */
export interface Offer {
  readonly id: string;
  /** What has happened. */
  readonly words: string;
  /** What the key does about it; null where there is nothing to do. */
  readonly touch: { readonly key: string; readonly cue: Cue } | null;
}

/** The chart as it is written by now, where it is another arrangement than the one being played. */
export interface Edited {
  readonly road: Road;
  /** How many things there are to look at in the chart. */
  readonly toLookAt: number;
}

/** "New arrangement without Solos: on to Head out · 4 to look at". */
const arrangementWords = (lost: LostLeg | null, toLookAt: number): string => {
  const on = lost?.next == null ? 'the tune ends' : `on to ${lost.next}`;
  const arrangement = lost === null ? 'New arrangement ready' : `New arrangement without ${lost.name}: ${on}`;
  return toLookAt === 0 ? arrangement : `${arrangement} · ${toLookAt} to look at`;
};

/**
 * What is offered now: the band has done what a cue just missed, the tune was stopped by mistake, a hold can end
 * with a tap, somebody has changed the arrangement. What the new one would take away, and what is unfinished in it, is said.
 */
export const offersNow = (
  {
    performance,
    nowMs,
    where,
    rolling,
    announced,
    isFree,
  }: Pick<PodiumMoment, 'performance' | 'nowMs' | 'where' | 'rolling' | 'announced' | 'isFree'>,
  edited: Edited | null,
): readonly Offer[] => {
  const offers: Offer[] = [];
  const missed = missedAt(performance, nowMs);
  if (missed !== null) {
    offers.push({
      id: 'itHappened',
      words: `${missed.name} came too late for the bar line${missed.words === '' ? '' : `: ${missed.words}`}`,
      touch: { key: 'it happened', cue: { kind: 'itHappened', cue: missed.cue } },
    });
  }
  if (isFree({ kind: 'resume' })) {
    offers.push({ id: 'resume', words: 'Stopped', touch: { key: 'resume', cue: { kind: 'resume' } } });
  }
  const onTap: Cue = { kind: 'release', onTap: true };
  if (where.state === 'held' && isFree(onTap) && !announced.some(({ kind }) => kind === 'release')) {
    offers.push({ id: 'releaseOnTap', words: 'Held', touch: { key: 'release on the tap', cue: onTap } });
  }
  const isBack = isArrangementBack(performance, nowMs);
  if (rolling && edited === null && isBack) {
    const words = 'New arrangement taken back: the chart is again as it is played';
    offers.push({ id: 'asBefore', words, touch: null });
  }
  if (rolling && edited !== null && !announced.some(({ kind, landed }) => kind === 'adopt' && !landed)) {
    const cue: Cue = { kind: 'adopt', road: edited.road };
    const words = arrangementWords(lostLeg(performance, edited.road, nowMs), edited.toLookAt);
    const touch = { key: 'take it at the top', cue };
    if (isFree(cue)) {
      offers.push({ id: 'takeRoad', words: isBack ? `Changed since it was taken · ${words}` : words, touch });
    }
  }
  return offers;
};
