import type { Voice } from '../../common/band/note-event.ts';

/** How a part is wished. */
export interface PartMix {
  /** 0–1. */
  readonly volume: number;
  readonly muted: boolean;
  readonly solo: boolean;
}

/** The whole mix. The master begins low: nobody may be startled by it. */
export interface Mix {
  /** 0–1. */
  readonly master: number;
  readonly parts: Readonly<Record<Voice, PartMix>>;
}

const part = (volume: number): PartMix => ({ volume, muted: false, solo: false });

export const FIRST_MIX: Mix = {
  master: 0.3,
  parts: { click: part(0.5), bass: part(0.8), comping: part(0.6), drums: part(0.7) },
};

/** Of a fader: half-way is about 12 dB down, as loudness is heard. */
const gainOf = (volume: number): number => Math.min(1, Math.max(0, volume)) ** 2;

/** How loud a part sounds: nothing where it is muted, or where another plays solo. */
export const partGain = ({ parts }: Mix, voice: Voice): number => {
  const { volume, muted, solo } = parts[voice];
  const isOthersSolo = !solo && Object.values(parts).some((other) => other.solo);
  return muted || isOthersSolo ? 0 : gainOf(volume);
};

export const masterGain = ({ master }: Mix): number => gainOf(master);
