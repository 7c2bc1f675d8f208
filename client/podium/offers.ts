import type { Road } from '../../common/form/road.ts';
import type { Cue } from '../../common/stage/cue.ts';
import { missedAt } from '../../common/stage/missed.ts';
import type { PodiumMoment } from './podium-moment.ts';

/** Something that one touch can do just now, and that is gone again soon. */
export interface Offer {
  readonly id: string;
  /** What has happened. */
  readonly words: string;
  /** What the key does about it. */
  readonly key: string;
  readonly cue: Cue;
}

/**
 * What is offered now: the band has done what a cue just missed, the tune was stopped by mistake, a hold can end
 * with a tap, somebody has changed the arrangement.
 * @param edited the chart's road as edited meanwhile, null where it is the one being played
 */
export const offersNow = (
  { performance, nowMs, where, rolling, announced, isFree }: PodiumMoment,
  edited: Road | null,
): readonly Offer[] => {
  const offers: Offer[] = [];
  const missed = missedAt(performance, nowMs);
  if (missed !== null) {
    offers.push({
      id: 'itHappened',
      words: `${missed.name} came too late for the bar line${missed.words === '' ? '' : `: ${missed.words}`}`,
      key: 'it happened',
      cue: { kind: 'itHappened', cue: missed.cue },
    });
  }
  if (isFree({ kind: 'resume' })) {
    offers.push({ id: 'resume', words: 'Stopped', key: 'resume', cue: { kind: 'resume' } });
  }
  const onTap: Cue = { kind: 'release', onTap: true };
  if (where.state === 'held' && isFree(onTap) && !announced.some(({ kind }) => kind === 'release')) {
    offers.push({ id: 'releaseOnTap', words: 'Held', key: 'release on the tap', cue: onTap });
  }
  if (rolling && edited !== null && !announced.some(({ kind, landed }) => kind === 'adopt' && !landed)) {
    const cue: Cue = { kind: 'adopt', road: edited };
    if (isFree(cue))
      offers.push({ id: 'takeRoad', words: 'New arrangement ready', key: 'take it at the top', cue });
  }
  return offers;
};
