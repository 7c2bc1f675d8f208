import { useEffect, useRef, useState } from 'react';
import { hasMicrophone, type Listening, listenMicrophone } from './listen-microphone.ts';

export type MicrophoneState = 'off' | 'asking' | 'on' | 'refused' | 'missing';

/** Listens as long as `wanted`. @param every gets the level on every frame, dB below full scale */
export const useMicrophone = (wanted: boolean, every: (db: number) => void): MicrophoneState => {
  const latest = useRef(every);
  latest.current = every;
  const [state, setState] = useState<MicrophoneState>(hasMicrophone() ? 'off' : 'missing');
  useEffect(() => {
    if (!wanted || !hasMicrophone()) return;
    let here = true;
    let listening: Listening | null = null;
    setState('asking');
    listenMicrophone((db) => latest.current(db)).then(
      (opened) => {
        if (!here) return opened.close();
        listening = opened;
        setState('on');
      },
      (error: unknown) => {
        console.info('The microphone was not opened.', error);
        if (here) setState('refused');
      },
    );
    return () => {
      here = false;
      listening?.close();
      setState('off');
    };
  }, [wanted]);
  return state;
};
