import { useCallback, useEffect, useRef, useState } from 'react';
import { bandEvents } from '../../common/band/band-events.ts';
import type { BandSettings } from '../../common/band/band-settings.ts';
import { sharedMs } from '../../common/units.ts';
import { useServices } from '../app/services.ts';
import type { BandMix, BandSound } from '../state/band-sound.ts';
import type { Board } from '../state/board.ts';
import { useObservable } from '../state/observable.ts';

/** The sound of a practice band. */
export interface SwitchedSound {
  readonly state: 'off' | 'coming' | 'on';
  /** Why there is no sound; '' where all is well. */
  readonly words: string;
  /** From a touch. */
  readonly switchOn: () => void;
  readonly switchOff: () => void;
}

const NO_SOUND = 'This browser gives no sound. Switch it on again; if it stays silent, load the page anew.';

/**
 * A band, or a click alone, that plays what is on the board's stage and obeys what is called there.
 * @param laterMs how much later than the browser says a sound is heard
 */
export const useBandSound = (
  { stage, sharedNow }: Pick<Board, 'stage' | 'sharedNow'>,
  band: BandSettings,
  mix: BandMix,
  laterMs: number,
): SwitchedSound => {
  const { openSound } = useServices();
  const { performance: played } = useObservable(stage);
  const now = useRef({ played, band, mix, laterMs });
  now.current = { played, band, mix, laterMs };
  const sound = useRef<BandSound | null>(null);
  const wanted = useRef(0);
  const [state, setState] = useState<SwitchedSound['state']>('off');
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
    openSound({
      localNow: () => performance.now(),
      sharedAtLocal: (local) => sharedMs(sharedNow() + local - performance.now()),
      eventsBetween: (fromMs, untilMs) => {
        const { played: take, band: players } = now.current;
        return take === null ? [] : bandEvents(take, players, fromMs, untilMs);
      },
      mix: now.current.mix,
      laterMs: () => now.current.laterMs,
    }).then(
      (opened) => {
        if (asked !== wanted.current) return void opened.close();
        sound.current = opened;
        opened.setMix(now.current.mix);
        setState('on');
      },
      (error: unknown) => {
        console.error('There is no sound.', error);
        if (asked !== wanted.current) return;
        setState('off');
        setWords(NO_SOUND);
      },
    );
  }, [openSound, sharedNow]);
  useEffect(() => switchOff, [switchOff]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: whatever is played otherwise is planned anew
  useEffect(() => sound.current?.replan(), [played, band]);
  useEffect(() => sound.current?.setMix(mix), [mix]);
  return { state, words, switchOn, switchOff };
};
