import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import { bandEvents } from '../../common/band/band-events.ts';
import type { BandSettings } from '../../common/band/band-settings.ts';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import { type LocalMs, sharedMs } from '../../common/units.ts';
import { useServices } from '../app/services.ts';
import type { BandSound } from '../state/band-sound.ts';
import type { Board } from '../state/board.ts';
import { useObservable } from '../state/observable.ts';
import { tabletPractice } from '../storage/tablet-practice.ts';
import { bandAsWished } from './band-as-wished.ts';

export interface PracticeBand {
  readonly state: 'off' | 'coming' | 'on';
  /** Why there is no sound; '' where all is well. */
  readonly words: string;
  /** From a touch. */
  readonly switchOn: () => void;
  readonly switchOff: () => void;
  /** How it plays. */
  readonly settings: BandSettings;
}

const NO_SOUND =
  'This browser gives no sound. Touch “sound on” again; if it stays silent, load the page anew.';

/** The practice band that plays what is on the stage of one's own. */
export const usePracticeBand = (
  { stage }: Pick<Board, 'stage'>,
  feel: string,
  music: ReadonlyMap<string, BarMusic>,
): PracticeBand => {
  const { openSound } = useServices();
  const wishes = useObservable(tabletPractice);
  const { performance: played } = useObservable(stage);
  const band = useMemo(() => bandAsWished(feel, music, wishes), [feel, music, wishes]);
  const now = useRef({ played, band });
  now.current = { played, band };
  const sound = useRef<BandSound | null>(null);
  const wanted = useRef(0);
  const [state, setState] = useState<PracticeBand['state']>('off');
  const [words, setWords] = useState('');

  const switchOff = useCallback(() => {
    wanted.current += 1;
    setState('off');
    sound.current?.close().catch((error: unknown) => console.warn('The sound did not end by itself.', error));
    sound.current = null;
  }, []);
  const switchOn = useCallback(() => {
    wanted.current += 1;
    const asked = wanted.current;
    setWords('');
    setState('coming');
    const { master, parts, laterMs } = tabletPractice.get();
    openSound({
      localNow: () => performance.now(),
      // A stage of one's own goes by this tablet's clock.
      sharedAtLocal: (local: LocalMs) => sharedMs(local),
      eventsBetween: (fromMs, untilMs) => {
        const { played: take, band: players } = now.current;
        return take === null ? [] : bandEvents(take, players, fromMs, untilMs);
      },
      mix: { master, parts },
      laterMs,
    }).then(
      (opened) => {
        if (asked !== wanted.current) return void opened.close();
        sound.current = opened;
        setState('on');
      },
      (error: unknown) => {
        console.error('There is no sound.', error);
        if (asked !== wanted.current) return;
        setState('off');
        setWords(NO_SOUND);
      },
    );
  }, [openSound]);
  useEffect(() => switchOff, [switchOff]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: whatever is played otherwise is planned anew
  useEffect(() => sound.current?.replan(), [played, band]);
  const { master, parts } = wishes;
  useEffect(() => sound.current?.setMix({ master, parts }), [master, parts]);
  return { state, words, switchOn, switchOff, settings: band };
};
