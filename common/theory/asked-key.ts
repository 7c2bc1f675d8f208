import { readKey } from './key.ts';
import { pitchClassOf } from './pitch.ts';

/**
 * Semitones by which a tune is read higher so that it stands in the key asked for, −5 to 6: the shorter way.
 * null where either key cannot be read.
 *
 * @example semitonesAskedFor('Eb blues', 'C') // −3
 */
export const semitonesAskedFor = (written: string, asked: string): number | null => {
  const from = readKey(written);
  const to = readKey(asked);
  if (from === null || to === null) return null;
  const up = (pitchClassOf(to.tonic) - pitchClassOf(from.tonic) + 12) % 12;
  return up > 6 ? up - 12 : up;
};
