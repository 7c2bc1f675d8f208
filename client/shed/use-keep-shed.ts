import { useCallback, useEffect, useRef } from 'react';
import type { Board } from '../state/board.ts';
import { useObservable } from '../state/observable.ts';
import { tabStore } from '../storage/browser-stores.ts';
import { forgetShed, type KeptShed, keepShed } from './kept-shed.ts';

/**
 * Keeps the Shed for the case that its page is loaded anew; whoever leaves it for another page begins anew. The returned
 * function is called where a round of a drill ends with the page.
 */
export const useKeepShed = (
  chart: string,
  { stage, sharedNow }: Pick<Board, 'stage' | 'sharedNow'>,
  room: KeptShed['room'],
  lost: KeptShed['lost'],
): (() => void) => {
  const { take } = useObservable(stage);
  const ended = useRef<KeptShed['lost']>(null);
  const keep = useCallback(() => {
    keepShed(tabStore, {
      chart,
      room,
      // In the drill a round has the stage, and ends with the page.
      take: room === 'drill' ? null : take,
      lost: ended.current ?? lost,
      leftAtMs: sharedNow(),
    });
  }, [chart, room, take, lost, sharedNow]);
  useEffect(keep, [keep]);
  useEffect(() => {
    // A page that comes back as it was has lost nothing.
    const isBack = () => {
      ended.current = null;
    };
    window.addEventListener('pagehide', keep);
    window.addEventListener('pageshow', isBack);
    return () => {
      window.removeEventListener('pagehide', keep);
      window.removeEventListener('pageshow', isBack);
    };
  }, [keep]);
  useEffect(() => () => forgetShed(tabStore), []);
  return useCallback(() => {
    ended.current = 'round';
    keep();
  }, [keep]);
};
