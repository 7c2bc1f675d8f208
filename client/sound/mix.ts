import type { Voice } from '../../common/band/note-event.ts';
import type { BandMix } from '../state/band-sound.ts';

/** Of a fader: half-way is about 12 dB down, as loudness is heard. */
const gainOf = (volume: number): number => Math.min(1, Math.max(0, volume)) ** 2;

/** How loud a part sounds: nothing where it is muted, or where another plays solo. */
export const partGain = ({ parts }: BandMix, voice: Voice): number => {
  const { volume, muted, solo } = parts[voice];
  const isOthersSolo = !solo && Object.values(parts).some((other) => other.solo);
  return muted || isOthersSolo ? 0 : gainOf(volume);
};

export const masterGain = ({ master }: BandMix): number => gainOf(master);
