import { printKey, readKey } from '../theory/key.ts';
import { readingFor, transposeKey } from '../theory/transpose.ts';

/** A written key as it sounds, in words: "concert G major"; '' where none is written. */
export const soundingKeyWords = (written: string, semitones: number): string => {
  if (written === '') return '';
  const key = readKey(written);
  const sounding = key && semitones !== 0 ? transposeKey(key, readingFor(key, semitones)) : key;
  return `concert ${sounding ? printKey(sounding) : written}`;
};
