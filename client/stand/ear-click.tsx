import { useMemo } from 'react';
import { type BandSettings, plainBand } from '../../common/band/band-settings.ts';
import { Fader } from '../engraving/fader.tsx';
import type { BandMix } from '../state/band-sound.ts';
import { useBoard } from '../state/board-context.tsx';
import { useObservable } from '../state/observable.ts';
import { tabletPractice } from '../storage/tablet-practice.ts';
import { useBandSound } from './use-band-sound.ts';

const silent = { volume: 0, muted: true, solo: false };

/** A click for one player's ear that stays with the highlight; nobody hears one who did not switch it on. */
export const EarClick = ({ feel }: { readonly feel: string }) => {
  const { master, parts, clickBeats, clickParts, laterMs } = useObservable(tabletPractice);
  const band = useMemo((): BandSettings => {
    const click = { beats: clickBeats, parts: clickParts, accents: true, inBreaks: true };
    return { ...plainBand(feel), click };
  }, [feel, clickBeats, clickParts]);
  const { volume } = parts.click;
  const mix = useMemo((): BandMix => {
    const click = { volume, muted: false, solo: false };
    return { master, parts: { click, bass: silent, comping: silent, drums: silent } };
  }, [master, volume]);
  const { state, words, switchOn, switchOff } = useBandSound(useBoard(), band, mix, laterMs);
  const isOn = state !== 'off';
  return (
    <div className="ear-click">
      <button
        type="button"
        className="button"
        aria-pressed={isOn}
        aria-busy={state === 'coming'}
        data-setting="earClick"
        onClick={isOn ? switchOff : switchOn}
      >
        click in my ear
      </button>
      {isOn && (
        <Fader words="Level" value={master} onChange={(next) => tabletPractice.change({ master: next })} />
      )}
      <p className="small">
        {words !== ''
          ? words
          : 'For headphones. Keep it soft: it is on beside the band for the whole evening.'}
      </p>
    </div>
  );
};
