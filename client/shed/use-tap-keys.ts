import { useEffect, useRef } from 'react';
import { actionOf } from '../podium/pedals/bindings.ts';
import { hearKeys } from '../podium/pedals/hear-keys.ts';
import { midi } from '../podium/pedals/hear-midi.ts';
import { pedals } from '../podium/pedals/pedal-hub.ts';
import { podiumSettings } from '../storage/tablet-podium.ts';

const TAP_KEYS = ['key:Space', 'key:Enter', 'key:NumpadEnter'];

/** Another key of the page is in focus: Space and Enter press that one. */
const isOnAnotherKey = (): boolean =>
  document.activeElement?.matches('button:not(.tap-key), a, summary') ?? false;

/**
 * While something is tapped, Space, Enter and every pedal or key that is bound to something tap, and call nothing.
 * @param onTap gets the time of the press on the clock of `performance.now()`
 */
export const useTapKeys = (onTap: (stampMs: number) => void): void => {
  const latest = useRef(onTap);
  latest.current = onTap;
  useEffect(() => {
    const { bindings } = podiumSettings.get();
    if (bindings.some(({ trigger }) => !trigger.startsWith('key:'))) void midi.openAgain();
    const stopKeys = hearKeys(pedals, window);
    const stopPlaying = pedals.play(
      (trigger) => actionOf(bindings, trigger) !== null || (TAP_KEYS.includes(trigger) && !isOnAnotherKey()),
      (_, stampMs) => latest.current(stampMs),
    );
    return () => {
      stopPlaying();
      stopKeys();
    };
  }, []);
};
