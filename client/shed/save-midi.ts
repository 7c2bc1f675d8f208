import type { BandSettings } from '../../common/band/band-settings.ts';
import { writeMidi } from '../../common/interchange/write-midi.ts';
import type { Take } from '../../common/stage/cue.ts';
import { wholeTake } from './whole-take.ts';

/** Gives the tune to the player as a MIDI file, with the practice band as it is wished; false where it has no end. */
export const saveMidi = (take: Take, band: BandSettings): boolean => {
  const whole = wholeTake(take);
  if (whole === null) return false;
  const { performance, endMs } = whole;
  const bytes = writeMidi({ performance, band, title: take.title, untilMs: endMs });
  const address = URL.createObjectURL(new Blob([new Uint8Array(bytes)], { type: 'audio/midi' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = `${fileName(take.title)}.mid`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
  return true;
};

const fileName = (title: string): string => title.replaceAll(/[^\p{L}\p{N} _-]+/gu, '').trim() || 'tune';
