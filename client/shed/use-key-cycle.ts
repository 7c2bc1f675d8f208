import { useEffect } from 'react';
import { followedChorus } from '../../common/stage/followed-chorus.ts';
import { semitonesAt } from '../../common/stage/in-force.ts';
import { useObservable } from '../state/observable.ts';
import { tabletPractice } from '../storage/tablet-practice.ts';
import type { AloneBoard } from './alone-board.ts';

/** Early enough in a chorus that the change at its end is announced, ms. */
const LOOK_EVERY_MS = 400;
/** No key is farther away than this, in semitones. */
const FARTHEST = 6;

/**
 * Calls the next key in every chorus that another one follows, where the player wishes so: a fourth up round the cycle, or a half step up.
 * @param mayCall false while something else calls the keys
 */
export const useKeyCycle = (alone: AloneBoard, mayCall: boolean): void => {
  const { cycleSemitones } = useObservable(tabletPractice);
  useEffect(() => {
    if (cycleSemitones === 0 || !mayCall) return;
    let calledIn = '';
    const look = () => {
      const { take, performance } = alone.stage.get();
      if (take === null || performance === null) return;
      const nowMs = alone.sharedNow();
      const now = followedChorus(performance, nowMs);
      if (now === null) return;
      const chorus = `${take.id} ${now.leg} ${now.pass}`;
      if (chorus === calledIn) return;
      calledIn = chorus;
      const there = semitonesAt(performance, nowMs) + cycleSemitones;
      const semitones = there > FARTHEST ? 12 - cycleSemitones : cycleSemitones;
      // Refused where the take ends with this chorus: then there is no next one.
      void alone.call(there > FARTHEST ? { kind: 'down', semitones } : { kind: 'up', semitones });
    };
    const timer = window.setInterval(look, LOOK_EVERY_MS);
    return () => window.clearInterval(timer);
  }, [alone, cycleSemitones, mayCall]);
};
